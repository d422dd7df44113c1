package org.vaneward.api;

import static org.junit.jupiter.api.Assertions.assertEquals;

import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import java.io.IOException;
import java.lang.reflect.Constructor;
import java.lang.reflect.Method;
import java.lang.reflect.Modifier;
import java.lang.reflect.Type;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;

/**
 * Holds the public package to what programs and notebooks were written against. A line of the list
 * that is gone is a break: it needs a new major version and a word in {@code docs/changelog.md}.
 * What is new is added to the list.
 */
class PublicApiTest {
  private static final Path LIST = Path.of("src/test/resources/api/public.txt");
  private static final Pattern TYPE = Pattern.compile("[a-z][\\w.]*\\.[A-Z]\\w*");

  private static List<Class<?>> publicTypes() {
    List<Class<?>> types = new ArrayList<>();
    for (JavaClass one :
        new ClassFileImporter()
            .withImportOption(new ImportOption.DoNotIncludeTests())
            .importPackages("org.vaneward.api")) {
      Class<?> type = one.reflect();
      if (Modifier.isPublic(type.getModifiers())) {
        types.add(type);
      }
    }
    return types;
  }

  private static List<String> entries() {
    TreeSet<String> entries = new TreeSet<>();
    for (Class<?> type : publicTypes()) {
      for (Method method : type.getDeclaredMethods()) {
        if (Modifier.isPublic(method.getModifiers()) && !method.isSynthetic()) {
          entries.add(
              type.getSimpleName()
                  + (Modifier.isStatic(method.getModifiers()) ? " static " : " ")
                  + method.getName()
                  + types(method.getGenericParameterTypes())
                  + " "
                  + method.getGenericReturnType().getTypeName());
        }
      }
      for (Constructor<?> made : type.getDeclaredConstructors()) {
        if (Modifier.isPublic(made.getModifiers())) {
          entries.add(type.getSimpleName() + " new" + types(made.getGenericParameterTypes()));
        }
      }
    }
    return List.copyOf(entries);
  }

  private static String types(Type... types) {
    return Arrays.stream(types).map(Type::getTypeName).collect(Collectors.joining(", ", "(", ")"));
  }

  @Test
  void isWhatTheListSays() throws IOException {
    List<String> listed = Files.readAllLines(LIST);
    List<String> entries = entries();
    List<String> gone = listed.stream().filter(line -> !entries.contains(line)).toList();
    List<String> unlisted = entries.stream().filter(line -> !listed.contains(line)).toList();
    assertEquals(List.of(), gone, "gone from the public package");
    assertEquals(List.of(), unlisted, "new in the public package: add to " + LIST);
  }

  /** Types of other packages of ours may change: none of them shows. */
  @Test
  void speaksInTypesThatStay() {
    TreeSet<String> foreign = new TreeSet<>();
    for (String entry : entries()) {
      Matcher type = TYPE.matcher(entry);
      while (type.find()) {
        String name = type.group();
        if (!name.startsWith("java.")
            && !name.startsWith("tech.tablesaw.api.")
            && !name.startsWith("org.vaneward.api.")) {
          foreign.add(entry);
        }
      }
    }
    assertEquals(new TreeSet<>(), foreign);
  }
}
