package org.vaneward.report;

import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import java.util.OptionalLong;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.vaneward.review.failure.ReviewQuestion;
import org.vaneward.sample.Sample;
import org.vaneward.spares.DemandRequest;
import org.vaneward.stats.fit.FitSettings;

/** A fleet whose clock is days: nothing on the page is counted in hours. */
class AgesInDaysTest {
  @TempDir Path fleet = Path.of("unset");

  @Test
  void nothingIsCountedInHours() throws IOException {
    Sample.write(Path.of("seeds/small-terminal.json"), fleet, OptionalLong.empty());
    Path settings = fleet.resolve("fleet.json");
    Files.writeString(
        settings,
        Files.readString(settings).replace("\"clock\": \"hours\"", "\"clock\": \"days\""));
    FleetAnalysis analysis = FleetAnalysis.of(fleet, FitSettings.defaults(), 1, progress -> {});
    String html =
        FleetReport.html(
            FleetReport.page(
                analysis,
                ServiceInterval.of(analysis),
                SparesAnalysis.of(analysis, new DemandRequest(24, 500, 1), said -> {}),
                analysis.failures(ReviewQuestion.defaults()),
                Optional.empty()));
    assertTrue(html.contains("planned interval, days"));
    String shown = html.replaceAll("(?s)<script[^>]*>.*?</script>", "");
    assertFalse(shown.contains("running hours"));
  }
}
