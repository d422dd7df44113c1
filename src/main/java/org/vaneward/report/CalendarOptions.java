package org.vaneward.report;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import org.vaneward.fleet.Commitment;
import org.vaneward.ingest.CommittedFile;
import org.vaneward.io.InputFile;
import org.vaneward.plan.CalendarRequest;
import org.vaneward.plan.PumpNow;

/**
 * What a user asks of the calendar.
 *
 * @param weeks how many it covers, at least 1
 * @param committed file of rebuilds that keep their week
 */
public record CalendarOptions(int weeks, Optional<Path> committed) {
  /** Two years, nothing committed. */
  public static CalendarOptions plain() {
    return new CalendarOptions(CalendarRequest.WEEKS, Optional.empty());
  }

  /** {@code read}, and the file of rebuilds committed where there is one. */
  List<InputFile> files(List<InputFile> read) {
    List<InputFile> files = new ArrayList<>(read);
    committed
        .map(Path::toAbsolutePath)
        .ifPresent(
            file ->
                files.add(
                    InputFile.of(
                        Optional.ofNullable(file.getParent()).orElse(file),
                        String.valueOf(file.getFileName()))));
    return files;
  }

  CalendarRequest request(LocalDate asOf, List<PumpNow> pumps) {
    List<Commitment> commitments =
        committed
            .map(
                file ->
                    CommittedFile.read(
                        file, asOf, pumps.stream().map(PumpNow::pump).collect(Collectors.toSet())))
            .orElse(List.of());
    return new CalendarRequest(weeks, commitments);
  }
}
