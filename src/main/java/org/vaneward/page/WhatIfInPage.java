package org.vaneward.page;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import org.teavm.jso.JSBody;
import org.teavm.jso.JSFunctor;
import org.teavm.jso.JSObject;
import org.teavm.jso.JSProperty;
import org.teavm.jso.core.JSArray;
import org.teavm.jso.core.JSString;
import org.vaneward.io.BadInputException;
import org.vaneward.plan.WhatIf;
import org.vaneward.report.PlanInputs;
import org.vaneward.report.PlanPacket;
import org.vaneward.report.WhatIfAnswer;

/**
 * Offers {@code vanewardAsk(packet, question, progress)} to the scripts of the report's page: the
 * answer to a question, its cells as the command line prints them.
 */
public final class WhatIfInPage {
  private WhatIfInPage() {}

  /** The question as the page asks it. */
  interface Question extends JSObject {
    /** Cost of a planned rebuild beside its parts; not a number when not asked. */
    @JSProperty
    double getPlanned();

    /** Components whose stops are asked about. */
    @JSProperty
    JSArray<JSString> getComponents();

    /** What a stop by each of them costs beside its parts. */
    @JSProperty
    double[] getUnplanned();

    /** Mandated months; not a number when not asked. */
    @JSProperty
    double getMonths();

    /** Usage as a multiple of what it is. */
    @JSProperty
    double getUsage();
  }

  /** Told how far the work has come. */
  @JSFunctor
  interface Progress extends JSObject {
    void say(String where);
  }

  /** What the page calls. */
  @JSFunctor
  interface Ask extends JSObject {
    JSObject ask(String packet, Question question, Progress progress);
  }

  /** Makes the function known; called once by the script this class is compiled to. */
  public static void main(String[] args) {
    offer(WhatIfInPage::answer);
  }

  private static JSObject answer(String packet, Question question, Progress progress) {
    try {
      PlanInputs inputs = PlanPacket.read(packet);
      WhatIfAnswer answer = WhatIfAnswer.of(inputs, asked(question), progress::say);
      return answered(
          answer.asked(),
          rows(List.of(WhatIfAnswer.serviceHeadings(inputs.settings()))),
          rows(answer.services()),
          rows(List.of(WhatIfAnswer.pumpHeadings(inputs.settings()))),
          rows(answer.pumps()),
          answer.due(),
          rows(List.of(WhatIfAnswer.partHeadings(inputs.settings()))),
          rows(answer.parts()),
          answer.partsCost());
    } catch (BadInputException e) {
      return refused(String.valueOf(e.getMessage()));
    }
  }

  private static WhatIf asked(Question question) {
    Map<String, Double> unplanned = new HashMap<>();
    for (int i = 0; i < question.getComponents().getLength(); i++) {
      unplanned.put(question.getComponents().get(i).stringValue(), question.getUnplanned()[i]);
    }
    double planned = question.getPlanned();
    double months = question.getMonths();
    return new WhatIf(
        Double.isNaN(planned) ? OptionalDouble.empty() : OptionalDouble.of(planned),
        unplanned,
        Double.isNaN(months) ? OptionalInt.empty() : OptionalInt.of((int) months),
        question.getUsage());
  }

  private static JSArray<JSArray<JSString>> rows(List<List<String>> rows) {
    JSArray<JSArray<JSString>> all = new JSArray<>();
    for (List<String> row : rows) {
      JSArray<JSString> cells = new JSArray<>();
      row.forEach(cell -> cells.push(JSString.valueOf(cell)));
      all.push(cells);
    }
    return all;
  }

  @JSBody(params = "ask", script = "self.vanewardAsk = ask;")
  private static native void offer(Ask ask);

  @JSBody(params = "reason", script = "return {refused: reason};")
  private static native JSObject refused(String reason);

  @JSBody(
      params = {
        "asked",
        "serviceHeadings",
        "services",
        "pumpHeadings",
        "pumps",
        "due",
        "partHeadings",
        "parts",
        "partsCost"
      },
      script =
          "return {asked: asked, serviceHeadings: serviceHeadings[0], services: services,"
              + " pumpHeadings: pumpHeadings[0], pumps: pumps, due: due,"
              + " partHeadings: partHeadings[0], parts: parts, partsCost: partsCost};")
  private static native JSObject answered(
      String asked,
      JSArray<JSArray<JSString>> serviceHeadings,
      JSArray<JSArray<JSString>> services,
      JSArray<JSArray<JSString>> pumpHeadings,
      JSArray<JSArray<JSString>> pumps,
      int due,
      JSArray<JSArray<JSString>> partHeadings,
      JSArray<JSArray<JSString>> parts,
      String partsCost);
}
