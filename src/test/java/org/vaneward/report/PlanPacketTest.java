package org.vaneward.report;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.vaneward.fleet.Service;
import org.vaneward.plan.PumpNow;
import org.vaneward.plan.WhatIf;
import org.vaneward.report.PlanInputs.Known;
import org.vaneward.stats.fit.FitSettings;

class PlanPacketTest {
  @Test
  void numbersKeepEveryBitAndWordsEveryMark(@TempDir Path temp) {
    PlanInputs inputs = PlanInputs.of(analysis(temp));
    PlanInputs odd = withPump(inputs, "a\\b\nc\rd</script><!-- é \u2028");
    String text = PlanPacket.write(odd);
    assertFalse(text.contains("<"), "nothing in it ends the element it lies in");
    PlanInputs read = PlanPacket.read(text);
    assertEquals(odd.pumps(), read.pumps());
    assertEquals(odd.confidence(), read.confidence());
    assertEquals(odd.settings().components(), read.settings().components());
    assertEquals(odd.settings().kits(), read.settings().kits());
    assertEquals(odd.settings().parts(), read.settings().parts());
    assertEquals(odd.settings().needs(), read.settings().needs());
    assertEquals(odd.settings().costs(), read.settings().costs());
    assertEquals(odd.settings().limits(), read.settings().limits());
    assertEquals(odd.settings().asOf(), read.settings().asOf());
    assertEquals(odd.lives().size(), read.lives().size());
    for (int i = 0; i < odd.lives().size(); i++) {
      Known a = odd.lives().get(i);
      Known b = read.lives().get(i);
      assertEquals(a.component(), b.component());
      assertEquals(a.service(), b.service());
      assertEquals(a.model().weibull(), b.model().weibull());
      assertEquals(a.model().basis(), b.model().basis());
      assertArrayEquals(a.model().draws().shapes(), b.model().draws().shapes());
      assertArrayEquals(a.model().draws().scales(), b.model().draws().scales());
    }
  }

  @Test
  void columnsThatRepeatAreWrittenOnce() {
    double[] column = {1.5, -2, Math.PI};
    String once = new PacketWriter().column(column).text();
    String twice = new PacketWriter().column(column).column(column.clone()).text();
    assertEquals(2 * Double.BYTES * 4 / 3.0, twice.length() - once.length(), 3);
    PacketReader in = new PacketReader(twice);
    assertArrayEquals(column, in.column());
    assertArrayEquals(column, in.column());
  }

  @Test
  void whatIsMissingStaysMissing() {
    String text =
        new PacketWriter()
            .number(OptionalDouble.empty())
            .number(OptionalInt.empty())
            .optional(Optional.<String>empty(), PacketWriter::word)
            .list(List.of("a", ""), PacketWriter::word)
            .text();
    PacketReader in = new PacketReader(text);
    assertEquals(OptionalDouble.empty(), in.optionalNumber());
    assertEquals(OptionalInt.empty(), in.optionalWhole());
    assertEquals(Optional.empty(), in.optional(PacketReader::word));
    assertEquals(List.of("a", ""), in.list(PacketReader::word));
  }

  @Test
  void theAnswerToNothingIsThePlanAsItStands(@TempDir Path temp) {
    FleetAnalysis analysis = analysis(temp);
    PlanInputs read = PlanPacket.read(PlanPacket.write(PlanInputs.of(analysis)));
    WhatIfAnswer answer = WhatIfAnswer.of(read, WhatIf.asRecorded(), where -> {});
    assertEquals(analysis.plan().pumps().stream().map(PlanView::cells).toList(), answer.pumps());
    assertEquals(
        ServiceInterval.of(analysis).stream()
            .map(
                one ->
                    IntervalView.cells(
                        one.group(),
                        one.costed().map(ServiceInterval.Costed::advised),
                        Words.unit(analysis.fleetSettings().clock())))
            .toList(),
        answer.services());
    assertTrue(answer.asked().isEmpty());
  }

  private static FleetAnalysis analysis(Path temp) {
    Path folder = temp.resolve("fleet");
    OddFleet.drawn(folder);
    return FleetAnalysis.of(folder, FitSettings.defaults(), 1, said -> {});
  }

  private static PlanInputs withPump(PlanInputs inputs, String name) {
    PumpNow pump = inputs.pumps().get(0);
    PumpNow odd =
        new PumpNow(
            name,
            name,
            Optional.of(name),
            Optional.of(new Service(name, "")),
            OptionalDouble.empty(),
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            OptionalDouble.of(0.1 + 0.2),
            pump.parts());
    return new PlanInputs(
        inputs.settings(), List.of(odd, pump), inputs.lives(), inputs.confidence());
  }
}
