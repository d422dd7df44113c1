package org.vaneward.ingest;

import org.vaneward.fuzz.FuzzTarget;
import org.vaneward.fuzz.Reading;
import org.vaneward.fuzz.ScratchFolder;

/** A fleet whose tables are good, with the input as its {@code fleet.json}. */
public final class FleetSettingsFuzz implements FuzzTarget {
  private final ScratchFolder folder = new ScratchFolder();

  @Override
  public boolean reads(byte[] input) {
    FleetFolder fleet = new FleetFolder(folder.path()).with("fleet.json", input);
    return Reading.ends(() -> AccountedFleet.read(fleet));
  }
}
