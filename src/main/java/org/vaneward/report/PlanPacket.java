package org.vaneward.report;

import java.time.LocalDate;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.BiConsumer;
import java.util.function.Function;
import org.vaneward.fleet.FleetSettings;
import org.vaneward.fleet.FleetSettings.Clock;
import org.vaneward.fleet.FleetSettings.Component;
import org.vaneward.fleet.FleetSettings.Costs;
import org.vaneward.fleet.FleetSettings.Kit;
import org.vaneward.fleet.FleetSettings.Limits;
import org.vaneward.fleet.FleetSettings.LoosePart;
import org.vaneward.fleet.FleetSettings.OpeningCost;
import org.vaneward.fleet.FleetSettings.Stock;
import org.vaneward.fleet.FleetSettings.Workshop;
import org.vaneward.fleet.Service;
import org.vaneward.fleet.Trigger;
import org.vaneward.life.UsageRate;
import org.vaneward.model.LifeDraws;
import org.vaneward.model.LifeModel;
import org.vaneward.model.LifeModel.Basis;
import org.vaneward.plan.PartNow;
import org.vaneward.plan.PumpNow;
import org.vaneward.report.PlanInputs.Known;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.distribution.Weibull;

/**
 * {@link PlanInputs} as a text that travels within the report's page and comes out the same, bit by
 * bit. The workshop and the shelf stay behind: neither dates nor intervals depend on them.
 */
public final class PlanPacket {
  private PlanPacket() {}

  /** The inputs as text. */
  public static String write(PlanInputs inputs) {
    PacketWriter out = new PacketWriter();
    write(out, inputs.settings());
    return out.list(inputs.pumps(), PlanPacket::write)
        .list(inputs.lives(), PlanPacket::write)
        .number(inputs.confidence())
        .text();
  }

  /** The inputs from their text. */
  public static PlanInputs read(String text) {
    PacketReader in = new PacketReader(text);
    FleetSettings settings = settings(in);
    List<PumpNow> pumps = in.list(PlanPacket::pump);
    List<Known> lives = in.list(PlanPacket::known);
    return new PlanInputs(settings, pumps, lives, in.number());
  }

  private static void write(PacketWriter out, FleetSettings s) {
    out.word(s.fleet()).word(s.currency()).word(s.asOf().toString()).word(s.clock().name());
    out.list(s.components(), PlanPacket::write)
        .list(s.kits(), PlanPacket::write)
        .list(
            s.parts(),
            (o, part) -> o.word(part.part()).number(part.price()).number(part.leadTimeDays()));
    map(out, s.needs(), PacketWriter::number);
    write(out, s.costs().planned());
    map(out, s.costs().unplanned(), PlanPacket::write);
    map(out, s.costs().hiddenPerHour(), PacketWriter::number);
    out.number(s.limits().maxIntervalMonths());
    map(out, s.limits().maxFailureProbability(), PacketWriter::number);
  }

  private static FleetSettings settings(PacketReader in) {
    return new FleetSettings(
        in.word(),
        in.word(),
        LocalDate.parse(in.word()),
        Clock.valueOf(in.word()),
        in.list(PlanPacket::component),
        in.list(PlanPacket::kit),
        in.list(i -> new LoosePart(i.word(), i.number(), i.whole())),
        map(in, PacketReader::whole),
        new Costs(cost(in), map(in, PlanPacket::cost), map(in, PacketReader::number)),
        new Limits(in.optionalWhole(), map(in, PacketReader::number)),
        new Workshop(OptionalInt.empty(), 0, List.of()),
        Stock.usual());
  }

  private static void write(PacketWriter out, Component c) {
    out.word(c.component())
        .list(c.positions(), PacketWriter::word)
        .number(c.announces() ? 1 : 0)
        .number(c.wearLimitMm())
        .list(new TreeSet<>(c.triggers()), (o, trigger) -> o.word(trigger.name()))
        .optional(c.part(), PacketWriter::word);
  }

  private static Component component(PacketReader in) {
    return new Component(
        in.word(),
        in.list(PacketReader::word),
        in.number() == 1,
        in.optionalNumber(),
        new TreeSet<>(in.list(i -> Trigger.valueOf(i.word()))),
        in.optional(PacketReader::word));
  }

  private static void write(PacketWriter out, Kit kit) {
    out.word(kit.kit()).list(kit.models(), PacketWriter::word);
    map(out, kit.contents(), PacketWriter::number);
    out.number(kit.price()).number(kit.leadTimeDays());
  }

  private static Kit kit(PacketReader in) {
    return new Kit(
        in.word(),
        in.list(PacketReader::word),
        map(in, PacketReader::whole),
        in.number(),
        in.whole());
  }

  private static void write(PacketWriter out, OpeningCost cost) {
    out.number(cost.labour()).number(cost.downtime()).number(cost.cleanUp());
  }

  private static OpeningCost cost(PacketReader in) {
    return new OpeningCost(in.number(), in.number(), in.number());
  }

  private static void write(PacketWriter out, PumpNow pump) {
    out.word(pump.pump())
        .word(pump.site())
        .optional(pump.model(), PacketWriter::word)
        .optional(pump.service(), PlanPacket::write)
        .number(pump.hoursPerWeek())
        .optional(
            pump.usage(),
            (o, rate) -> o.number(rate.perWeek()).number(rate.blockSd()).number(rate.blocks()))
        .optional(pump.lastRebuild(), (o, day) -> o.word(day.toString()))
        .optional(pump.inServiceSince(), (o, day) -> o.word(day.toString()))
        .number(pump.hoursSinceRebuild())
        .list(
            pump.parts(),
            (o, part) -> o.word(part.position()).word(part.component()).number(part.ageHours()));
  }

  private static PumpNow pump(PacketReader in) {
    return new PumpNow(
        in.word(),
        in.word(),
        in.optional(PacketReader::word),
        in.optional(PlanPacket::service),
        in.optionalNumber(),
        in.optional(i -> new UsageRate(i.number(), i.optionalNumber(), i.whole())),
        in.optional(i -> LocalDate.parse(i.word())),
        in.optional(i -> LocalDate.parse(i.word())),
        in.optionalNumber(),
        in.list(i -> new PartNow(i.word(), i.word(), i.optionalNumber())));
  }

  private static void write(PacketWriter out, Service service) {
    out.word(service.product()).word(service.duty());
  }

  private static Service service(PacketReader in) {
    return new Service(in.word(), in.word());
  }

  private static void write(PacketWriter out, Known known) {
    LifeModel model = known.model();
    out.word(known.component())
        .optional(known.service(), PlanPacket::write)
        .word(model.component())
        .optional(model.service(), PlanPacket::write)
        .number(model.weibull().shape())
        .number(model.weibull().scale());
    write(out, model.shape());
    write(out, model.scale());
    out.word(model.basis().name())
        .number(model.fromOthers())
        .number(model.lives())
        .number(model.failures())
        .column(model.draws().shapes())
        .column(model.draws().scales());
  }

  private static Known known(PacketReader in) {
    return new Known(
        in.word(),
        in.optional(PlanPacket::service),
        new LifeModel(
            in.word(),
            in.optional(PlanPacket::service),
            new Weibull(in.number(), in.number()),
            estimate(in),
            estimate(in),
            Basis.valueOf(in.word()),
            in.number(),
            in.number(),
            in.number(),
            LifeDraws.of(in.column(), in.column())));
  }

  private static void write(PacketWriter out, Estimate estimate) {
    out.number(estimate.estimate()).number(estimate.lower()).number(estimate.upper());
  }

  private static Estimate estimate(PacketReader in) {
    return new Estimate(in.number(), in.number(), in.number());
  }

  private static <V> void map(
      PacketWriter out, Map<String, V> map, BiConsumer<PacketWriter, V> write) {
    out.list(
        new TreeMap<>(map).entrySet(),
        (o, e) -> {
          o.word(e.getKey());
          write.accept(o, e.getValue());
        });
  }

  private static <V> Map<String, V> map(PacketReader in, Function<PacketReader, V> read) {
    Map<String, V> map = new HashMap<>();
    in.list(i -> Map.entry(i.word(), read.apply(i)))
        .forEach(e -> map.put(e.getKey(), e.getValue()));
    return map;
  }
}
