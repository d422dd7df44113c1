package org.vaneward.report;

import java.nio.ByteBuffer;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Base64;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.function.BiConsumer;
import java.util.stream.Collectors;

/**
 * Words and numbers one after the other as one text, to be read in the same order by {@link
 * PacketReader}. Numbers keep every bit.
 */
final class PacketWriter {
  private final List<String> words = new ArrayList<>();
  private double[] numbers = new double[1024];
  private int count;
  private final List<Column> columns = new ArrayList<>();

  /** A column of numbers written before, and where. */
  private record Column(int from, int length) {}

  PacketWriter word(String word) {
    words.add(word);
    return this;
  }

  PacketWriter number(double number) {
    if (count == numbers.length) {
      numbers = Arrays.copyOf(numbers, 2 * count);
    }
    numbers[count++] = number;
    return this;
  }

  PacketWriter number(OptionalDouble number) {
    return number(number.orElse(Double.NaN));
  }

  PacketWriter number(OptionalInt number) {
    return number(number.isPresent() ? number.getAsInt() : Double.NaN);
  }

  /** A column of finite numbers; one that equals an earlier one takes no room. */
  PacketWriter column(double[] column) {
    for (Column known : columns) {
      if (Arrays.equals(numbers, known.from, known.from + known.length, column, 0, column.length)) {
        return number(known.from).number(known.length);
      }
    }
    int from = count + 2;
    number(from).number(column.length);
    for (double x : column) {
      number(x);
    }
    columns.add(new Column(from, column.length));
    return this;
  }

  <T> PacketWriter list(Iterable<T> items, BiConsumer<PacketWriter, T> write) {
    int at = count;
    number(0);
    int size = 0;
    for (T item : items) {
      write.accept(this, item);
      size++;
    }
    numbers[at] = size;
    return this;
  }

  <T> PacketWriter optional(Optional<T> item, BiConsumer<PacketWriter, T> write) {
    return list(item.stream().toList(), write);
  }

  /** Everything written so far. */
  String text() {
    ByteBuffer bytes = ByteBuffer.allocate(Double.BYTES * count);
    for (int i = 0; i < count; i++) {
      bytes.putDouble(numbers[i]);
    }
    return Base64.getEncoder().encodeToString(bytes.array())
        + words.stream().map(PacketWriter::escaped).collect(Collectors.joining("\n", "\n", ""));
  }

  private static String escaped(String word) {
    // "<" too: the text lies within a page, and must not end its element.
    return word.replace("\\", "\\\\").replace("\n", "\\n").replace("\r", "\\r").replace("<", "\\l");
  }
}
