package org.vaneward.io;

import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.JsonLocation;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.core.StreamReadFeature;
import com.fasterxml.jackson.core.StreamWriteFeature;
import com.fasterxml.jackson.core.util.DefaultIndenter;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import com.fasterxml.jackson.core.util.Separators;
import com.fasterxml.jackson.databind.BeanDescription;
import com.fasterxml.jackson.databind.DeserializationContext;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonMappingException;
import com.fasterxml.jackson.databind.MapperFeature;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.ObjectWriter;
import com.fasterxml.jackson.databind.PropertyNamingStrategies;
import com.fasterxml.jackson.databind.SerializationConfig;
import com.fasterxml.jackson.databind.SerializationFeature;
import com.fasterxml.jackson.databind.SerializerProvider;
import com.fasterxml.jackson.databind.cfg.CoercionAction;
import com.fasterxml.jackson.databind.cfg.CoercionInputShape;
import com.fasterxml.jackson.databind.cfg.MapperConfig;
import com.fasterxml.jackson.databind.deser.std.StdScalarDeserializer;
import com.fasterxml.jackson.databind.exc.InvalidFormatException;
import com.fasterxml.jackson.databind.exc.UnrecognizedPropertyException;
import com.fasterxml.jackson.databind.exc.ValueInstantiationException;
import com.fasterxml.jackson.databind.introspect.AnnotatedClass;
import com.fasterxml.jackson.databind.introspect.AnnotatedMember;
import com.fasterxml.jackson.databind.introspect.JacksonAnnotationIntrospector;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.databind.module.SimpleModule;
import com.fasterxml.jackson.databind.ser.BeanPropertyWriter;
import com.fasterxml.jackson.databind.ser.BeanSerializerModifier;
import com.fasterxml.jackson.databind.ser.std.StdSerializer;
import com.fasterxml.jackson.databind.type.LogicalType;
import com.fasterxml.jackson.datatype.jdk8.Jdk8Module;
import com.fasterxml.jackson.datatype.jsr310.JavaTimeModule;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.OptionalLong;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/**
 * JSON to records and back, through one strict mapper.
 *
 * <p>Reading: record components are snake_case keys; every component that is not an {@code
 * Optional} must be there and not null; unknown and repeated keys, text after the document, a
 * fraction where a whole number belongs and a quoted number are refused. Enum constants are
 * lower-case words with hyphens ({@code LOW_FLOW} is {@code "low-flow"}), dates ISO 8601.
 *
 * <p>Writing: keys in the order of the record's components, map keys sorted, two-space indent, LF.
 * An absent {@code Optional} and a number that is not finite leave their key out; inside an array
 * or a map a number that is not finite is {@code null}.
 */
public final class Json {
  private static final ObjectMapper MAPPER = strictMapper();
  private static final ObjectWriter WRITER = MAPPER.writer(prettyPrinter());

  private Json() {}

  /**
   * The document in {@code file} as a {@code type}.
   *
   * @throws BadInputException when the file cannot be read or does not fit; one line with file,
   *     line, column and the path of the key
   */
  public static <T> T read(Path file, Class<T> type) {
    return read(file.toString(), SafeFiles.read(file), type);
  }

  /**
   * The document {@code text} as a {@code type}; {@code source} names it in messages.
   *
   * @throws BadInputException as {@link #read(Path, Class)}
   */
  public static <T> T read(String source, String text, Class<T> type) {
    return read(source, text.getBytes(StandardCharsets.UTF_8), type);
  }

  private static <T> T read(String source, byte[] bytes, Class<T> type) {
    try {
      @Nullable T value = MAPPER.readValue(bytes, type);
      if (value == null) {
        throw new BadInputException(source + ": the document is null; an object belongs here");
      }
      return value;
    } catch (JsonProcessingException e) {
      throw new BadInputException(source + where(e) + ": " + what(e), e);
    } catch (IOException e) {
      throw new BadInputException(source + ": not readable as JSON in UTF-8", e);
    }
  }

  /** {@code value} as an indented document that ends in a line feed. */
  public static String write(Object value) {
    return text(value) + "\n";
  }

  /** {@code value} as an indented document in UTF-8 that ends in a line feed. */
  public static byte[] writeBytes(Object value) {
    return write(value).getBytes(StandardCharsets.UTF_8);
  }

  private static String text(Object value) {
    try {
      return WRITER.writeValueAsString(value);
    } catch (JsonProcessingException e) {
      throw new UncheckedIOException(
          "a " + value.getClass().getSimpleName() + " cannot be written as JSON", e);
    }
  }

  private static ObjectMapper strictMapper() {
    return JsonMapper.builder()
        .addModule(new Jdk8Module())
        .addModule(new JavaTimeModule())
        .addModule(ownTypes())
        .annotationIntrospector(new RecordRules())
        .propertyNamingStrategy(PropertyNamingStrategies.SNAKE_CASE)
        .defaultPropertyInclusion(
            JsonInclude.Value.construct(JsonInclude.Include.NON_ABSENT, JsonInclude.Include.ALWAYS))
        .enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION)
        // The JDK's Double.toString is shortest only from 19 on; this one is on every JDK.
        .enable(StreamWriteFeature.USE_FAST_DOUBLE_WRITER)
        .enable(
            DeserializationFeature.FAIL_ON_NULL_FOR_PRIMITIVES,
            DeserializationFeature.FAIL_ON_NULL_CREATOR_PROPERTIES,
            DeserializationFeature.FAIL_ON_TRAILING_TOKENS,
            DeserializationFeature.FAIL_ON_UNKNOWN_PROPERTIES,
            DeserializationFeature.FAIL_ON_NUMBERS_FOR_ENUMS,
            DeserializationFeature.FAIL_ON_READING_DUP_TREE_KEY)
        .disable(DeserializationFeature.ACCEPT_FLOAT_AS_INT)
        .disable(MapperFeature.ALLOW_COERCION_OF_SCALARS)
        .withCoercionConfig(
            LogicalType.Textual,
            text ->
                text.setCoercion(CoercionInputShape.Integer, CoercionAction.Fail)
                    .setCoercion(CoercionInputShape.Float, CoercionAction.Fail)
                    .setCoercion(CoercionInputShape.Boolean, CoercionAction.Fail))
        .enable(SerializationFeature.ORDER_MAP_ENTRIES_BY_KEYS)
        .disable(SerializationFeature.WRITE_DATES_AS_TIMESTAMPS)
        .build();
  }

  private static SimpleModule ownTypes() {
    return new SimpleModule("vaneward")
        .addDeserializer(LocalDate.class, new IsoDate())
        .addSerializer(double[].class, new FiniteOrNullArray())
        .addSerializer(JsonFields.class, new FieldsInOrder())
        .addSerializer(Double.class, new FiniteOrNull())
        .addSerializer(double.class, new FiniteOrNull())
        .setSerializerModifier(new LeaveOutNotFinite());
  }

  private static DefaultPrettyPrinter prettyPrinter() {
    DefaultIndenter indenter = new DefaultIndenter("  ", "\n");
    DefaultPrettyPrinter printer =
        new DefaultPrettyPrinter(
            Separators.createDefaultInstance()
                .withRootSeparator("\n")
                .withObjectFieldValueSpacing(Separators.Spacing.AFTER)
                .withObjectEmptySeparator("")
                .withArrayEmptySeparator(""));
    printer.indentObjectsWith(indenter);
    return printer;
  }

  private static String where(JsonProcessingException e) {
    JsonLocation at = e.getLocation();
    return at == null || at.getLineNr() < 1
        ? ""
        : ", line " + at.getLineNr() + ", column " + at.getColumnNr();
  }

  private static String what(JsonProcessingException e) {
    String path = e instanceof JsonMappingException mapping ? path(mapping) : "";
    return path.isEmpty() ? problem(e) : path + ": " + problem(e);
  }

  private static String path(JsonMappingException e) {
    StringBuilder path = new StringBuilder();
    for (JsonMappingException.Reference step : e.getPath()) {
      if (step.getFieldName() == null) {
        path.append('[').append(step.getIndex()).append(']');
      } else {
        path.append(path.isEmpty() ? "" : ".").append(step.getFieldName());
      }
    }
    return path.toString();
  }

  private static String problem(JsonProcessingException e) {
    if (e instanceof UnrecognizedPropertyException unknown) {
      return "unknown key; the keys here are "
          + new TreeSet<>(unknown.getKnownPropertyIds())
              .stream().map(String::valueOf).collect(Collectors.joining(", "));
    }
    if (e instanceof ValueInstantiationException refused && refused.getCause() != null) {
      return String.valueOf(refused.getCause().getMessage());
    }
    if (e instanceof InvalidFormatException format) {
      return "'" + format.getValue() + "' is not " + expected(format.getTargetType());
    }
    String message = e.getOriginalMessage();
    return message.startsWith("Missing required creator property")
        ? "missing; this key is required"
        : message.replaceAll("`?\\borg\\.vaneward\\.[\\w.]*?([A-Z]\\w*(?:\\$\\w+)?)`?", "$1");
  }

  private static String expected(Class<?> type) {
    if (type.isEnum()) {
      return "one of "
          + List.of(type.getEnumConstants()).stream()
              .map(constant -> word(((Enum<?>) constant).name()))
              .collect(Collectors.joining(", "));
    }
    return type == LocalDate.class ? "a date such as 2024-03-31" : "a " + type.getSimpleName();
  }

  private static String word(String enumName) {
    return enumName.toLowerCase(Locale.ROOT).replace('_', '-');
  }

  private static boolean notFinite(@Nullable Object value) {
    if (value instanceof OptionalDouble maybe) {
      return maybe.isPresent() && !Double.isFinite(maybe.getAsDouble());
    }
    if (value instanceof Optional<?> maybe) {
      return maybe.isPresent() && notFinite(maybe.get());
    }
    return value instanceof Double number && !Double.isFinite(number);
  }

  /** Which keys a record needs, and the words of enums. */
  private static final class RecordRules extends JacksonAnnotationIntrospector {
    private static final long serialVersionUID = 1L;

    @Override
    public Boolean hasRequiredMarker(AnnotatedMember member) {
      Class<?> type = member.getRawType();
      return type != Optional.class
          && type != OptionalDouble.class
          && type != OptionalInt.class
          && type != OptionalLong.class;
    }

    @Override
    public String[] findEnumValues(
        MapperConfig<?> config, AnnotatedClass owner, Enum<?>[] constants, String[] names) {
      String[] found = super.findEnumValues(config, owner, constants, names);
      for (int i = 0; i < constants.length; i++) {
        found[i] = word(constants[i].name());
      }
      return found;
    }
  }

  /** A date is text in ISO 8601 and nothing else. */
  private static final class IsoDate extends StdScalarDeserializer<LocalDate> {
    private static final long serialVersionUID = 1L;

    IsoDate() {
      super(LocalDate.class);
    }

    @Override
    public LocalDate deserialize(JsonParser parser, DeserializationContext context)
        throws IOException {
      if (!parser.hasToken(JsonToken.VALUE_STRING)) {
        return (LocalDate) context.handleUnexpectedToken(LocalDate.class, parser);
      }
      try {
        return LocalDate.parse(parser.getText());
      } catch (DateTimeException e) {
        throw InvalidFormatException.from(parser, "", parser.getText(), LocalDate.class);
      }
    }
  }

  private static final class FiniteOrNull extends StdSerializer<Double> {
    private static final long serialVersionUID = 1L;

    FiniteOrNull() {
      super(Double.class);
    }

    @Override
    public void serialize(Double value, JsonGenerator out, SerializerProvider provider)
        throws IOException {
      writeFinite(value, out);
    }
  }

  private static final class FiniteOrNullArray extends StdSerializer<double[]> {
    private static final long serialVersionUID = 1L;

    FiniteOrNullArray() {
      super(double[].class);
    }

    @Override
    public void serialize(double[] values, JsonGenerator out, SerializerProvider provider)
        throws IOException {
      out.writeStartArray(values, values.length);
      for (double value : values) {
        writeFinite(value, out);
      }
      out.writeEndArray();
    }
  }

  private static final class FieldsInOrder extends StdSerializer<JsonFields> {
    private static final long serialVersionUID = 1L;

    FieldsInOrder() {
      super(JsonFields.class);
    }

    @Override
    public void serialize(JsonFields object, JsonGenerator out, SerializerProvider provider)
        throws IOException {
      out.writeStartObject();
      for (Map.Entry<String, Object> field : object.fields().entrySet()) {
        out.writeFieldName(field.getKey());
        provider.defaultSerializeValue(field.getValue(), out);
      }
      out.writeEndObject();
    }
  }

  private static void writeFinite(double value, JsonGenerator out) throws IOException {
    if (Double.isFinite(value)) {
      out.writeNumber(value);
    } else {
      out.writeNull();
    }
  }

  /** Leaves out the key of a component whose number is not finite. */
  private static final class LeaveOutNotFinite extends BeanSerializerModifier {
    private static final long serialVersionUID = 1L;

    @Override
    public List<BeanPropertyWriter> changeProperties(
        SerializationConfig config, BeanDescription bean, List<BeanPropertyWriter> properties) {
      properties.replaceAll(FiniteProperty::new);
      return properties;
    }
  }

  private static final class FiniteProperty extends BeanPropertyWriter {
    private static final long serialVersionUID = 1L;

    FiniteProperty(BeanPropertyWriter base) {
      super(base);
    }

    @Override
    public void serializeAsField(Object bean, JsonGenerator out, SerializerProvider provider)
        throws Exception {
      if (!notFinite(get(bean))) {
        super.serializeAsField(bean, out, provider);
      }
    }
  }
}
