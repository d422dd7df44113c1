package org.vaneward.adopt;

import java.time.LocalDate;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.vaneward.ingest.DateForm;
import org.vaneward.ingest.Table;

/** The last day of which the exports speak; days to come are slips or plans. */
record LastDay(Tables tables, Map<Table, TableDraft> drafts, LocalDate today) {

  /** That day; today where there is none. */
  LocalDate day() {
    return Stream.of(Table.values())
        .flatMap(table -> tables.of(table).stream())
        .flatMap(this::days)
        .filter(day -> !day.isAfter(today))
        .max(LocalDate::compareTo)
        .orElse(today);
  }

  private Stream<LocalDate> days(TableMatch match) {
    DateForm form =
        Optional.ofNullable(drafts.get(match.table()))
            .map(TableDraft::dayForm)
            .orElse(DateForm.ISO);
    return match.picks().values().stream()
        .filter(pick -> Kind.of(pick.column()) == Kind.DAY)
        .flatMap(
            pick ->
                Stream.concat(
                    pick.from().texts().keySet().stream().flatMap(t -> form.days(t).stream()),
                    pick.from().typed().keySet().stream()
                        .flatMap(t -> DateForm.ISO.days(t).stream())));
  }
}
