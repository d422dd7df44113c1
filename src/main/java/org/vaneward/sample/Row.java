package org.vaneward.sample;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** A row while it can still be changed, with what truly lies behind it. */
final class Row {
  private final Map<String, String> cells = new LinkedHashMap<>();
  private final String pump;
  private final LocalDate day;
  private final double hours;
  private final Optional<PumpRun.Opened> opening;
  private final Optional<PumpRun.Found> found;
  private boolean flawed;

  private Row(
      String pump,
      LocalDate day,
      double hours,
      Optional<PumpRun.Opened> opening,
      Optional<PumpRun.Found> found) {
    this.pump = pump;
    this.day = day;
    this.hours = hours;
    this.opening = opening;
    this.found = found;
  }

  static Row of(String pump, LocalDate day, double hours) {
    return new Row(pump, day, hours, Optional.empty(), Optional.empty());
  }

  static Row of(String pump, PumpRun.Opened opening) {
    return new Row(pump, opening.day(), opening.hours(), Optional.of(opening), Optional.empty());
  }

  static Row of(String pump, PumpRun.Opened opening, PumpRun.Found found) {
    return new Row(pump, opening.day(), opening.hours(), Optional.of(opening), Optional.of(found));
  }

  Row copy() {
    Row copy = new Row(pump, day, hours, opening, found);
    copy.cells.putAll(cells);
    copy.flawed = true;
    return copy;
  }

  String pump() {
    return pump;
  }

  LocalDate day() {
    return day;
  }

  double hours() {
    return hours;
  }

  Optional<PumpRun.Opened> opening() {
    return opening;
  }

  Optional<PumpRun.Found> found() {
    return found;
  }

  boolean isFlawed() {
    return flawed;
  }

  void markFlawed() {
    flawed = true;
  }

  String get(String column) {
    return cells.getOrDefault(column, "");
  }

  Row set(String column, String value) {
    cells.put(column, value);
    return this;
  }

  List<String> inOrder(List<String> header) {
    List<String> ordered = new ArrayList<>(header.size());
    header.forEach(column -> ordered.add(get(column)));
    return ordered;
  }
}
