package org.vaneward.report;

import java.nio.ByteBuffer;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Base64;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.function.Function;

/** Reads what {@link PacketWriter} wrote, in the same order. */
final class PacketReader {
  private final String[] words;
  private final double[] numbers;
  private int word = 1;
  private int number;

  PacketReader(String text) {
    words = text.split("\n", -1);
    ByteBuffer bytes = ByteBuffer.wrap(Base64.getDecoder().decode(words[0]));
    numbers = new double[bytes.capacity() / Double.BYTES];
    for (int i = 0; i < numbers.length; i++) {
      numbers[i] = bytes.getDouble();
    }
  }

  String word() {
    return plain(words[word++]);
  }

  double number() {
    return numbers[number++];
  }

  int whole() {
    return (int) number();
  }

  OptionalDouble optionalNumber() {
    double x = number();
    return Double.isNaN(x) ? OptionalDouble.empty() : OptionalDouble.of(x);
  }

  OptionalInt optionalWhole() {
    double x = number();
    return Double.isNaN(x) ? OptionalInt.empty() : OptionalInt.of((int) x);
  }

  double[] column() {
    int from = whole();
    int length = whole();
    if (from == number) {
      number += length;
    }
    return Arrays.copyOfRange(numbers, from, from + length);
  }

  <T> List<T> list(Function<PacketReader, T> read) {
    int size = whole();
    List<T> items = new ArrayList<>(size);
    for (int i = 0; i < size; i++) {
      items.add(read.apply(this));
    }
    return items;
  }

  <T> Optional<T> optional(Function<PacketReader, T> read) {
    return list(read).stream().findFirst();
  }

  private static String plain(String word) {
    if (word.indexOf('\\') < 0) {
      return word;
    }
    StringBuilder plain = new StringBuilder();
    for (int i = 0; i < word.length(); i++) {
      char c = word.charAt(i);
      if (c == '\\') {
        i++;
        plain.append(escaped(word.charAt(i)));
      } else {
        plain.append(c);
      }
    }
    return plain.toString();
  }

  private static char escaped(char mark) {
    return switch (mark) {
      case 'n' -> '\n';
      case 'r' -> '\r';
      case 'l' -> '<';
      default -> mark;
    };
  }
}
