package org.vaneward.ingest;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.Map;
import org.vaneward.fuzz.FuzzTarget;
import org.vaneward.fuzz.Reading;
import org.vaneward.fuzz.ScratchFolder;
import org.vaneward.fuzz.Sections;

/**
 * A fleet read by a mapping. What stands first in the input is the mapping, a value to a line so
 * that it is always JSON: {@code tables/pumps/columns/pump=Asset}, {@code dates=[d.M.yyyy|yyyy},
 * {@code tables/pumps/header_line=2}. Tables follow, as in {@link FleetTablesFuzz}.
 */
public final class FleetMappingFuzz implements FuzzTarget {
  private static final ObjectMapper JSON = new ObjectMapper();

  private final ScratchFolder folder = new ScratchFolder();

  @Override
  public boolean reads(byte[] input) throws IOException {
    Map<String, byte[]> sections = Sections.of(input);
    String lines = new String(sections.getOrDefault("", new byte[0]), StandardCharsets.UTF_8);
    FleetFolder fleet =
        FleetTablesFuzz.withTables(new FleetFolder(folder.path()), sections)
            .with("fleet.json", settings(lines));
    return Reading.ends(() -> AccountedFleet.read(fleet));
  }

  private static String settings(String lines) throws JsonProcessingException {
    ObjectNode settings = (ObjectNode) JSON.readTree(FleetFolder.SETTINGS);
    ObjectNode mapping = settings.putObject("mapping");
    lines.lines().forEach(line -> put(mapping, line));
    return settings.toString();
  }

  private static void put(ObjectNode mapping, String line) {
    int equals = line.indexOf('=');
    String[] path = line.substring(0, Math.max(0, equals)).split("/", -1);
    ObjectNode node = mapping;
    for (int i = 0; i < path.length - 1; i++) {
      JsonNode next = node.get(path[i]);
      node = next instanceof ObjectNode known ? known : node.putObject(path[i]);
    }
    String value = line.substring(equals + 1);
    String key = path[path.length - 1];
    if (value.startsWith("[")) {
      ArrayNode list = node.putArray(key);
      for (String text : value.substring(1).split("\\|", -1)) {
        list.add(text);
      }
    } else if (value.matches("-?\\d{1,9}")) {
      node.put(key, Integer.parseInt(value));
    } else {
      node.put(key, value.replace("\\t", "\t"));
    }
  }
}
