package org.vaneward.cli;

import java.util.List;
import java.util.Optional;
import org.vaneward.io.BadInputException;

/** The option {@code --ages}. */
final class Ages {
  private Ages() {}

  /** The ages asked for, none when the option is not given. */
  static List<Double> checked(Optional<List<Double>> ages) {
    for (double age : ages.orElse(List.of())) {
      if (!(age > 0 && age < Double.POSITIVE_INFINITY)) {
        throw new BadInputException(
            "--ages " + age + ": an age is positive, such as --ages 2000,4000,8000");
      }
    }
    return ages.orElse(List.of());
  }
}
