package org.vaneward.io;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * An object of a JSON document whose keys depend on what there is to say: keys in the order in
 * which they were added, absent values and numbers that are not finite left out. Where the keys are
 * always the same, a record is clearer.
 */
public final class JsonFields {
  private final Map<String, Object> fields = new LinkedHashMap<>();

  /**
   * Adds a key.
   *
   * @param value what {@link Json} writes; an empty {@code Optional} adds nothing
   * @throws IllegalArgumentException when the key is there already
   */
  public JsonFields with(String key, Object value) {
    if (value instanceof Optional<?> maybe) {
      maybe.ifPresent(there -> with(key, there));
    } else if (value instanceof OptionalDouble maybe) {
      maybe.ifPresent(there -> with(key, there));
    } else if (!(value instanceof Double number && !Double.isFinite(number))
        && fields.putIfAbsent(key, value) != null) {
      throw new IllegalArgumentException("the key " + key + " stands twice");
    }
    return this;
  }

  /** Adds the keys of another object. */
  public JsonFields withAll(JsonFields others) {
    others.fields.forEach(this::with);
    return this;
  }

  /** Keys and values in their order. */
  Map<String, Object> fields() {
    return Collections.unmodifiableMap(fields);
  }
}
