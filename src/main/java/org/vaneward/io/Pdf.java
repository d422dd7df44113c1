package org.vaneward.io;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.Arrays;
import java.util.Date;
import java.util.Locale;
import java.util.Map;
import java.util.function.Consumer;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import javax.xml.transform.TransformerException;
import javax.xml.transform.TransformerFactory;
import javax.xml.transform.dom.DOMSource;
import javax.xml.transform.sax.SAXResult;
import org.apache.fop.apps.EnvironmentalProfileFactory;
import org.apache.fop.apps.FOPException;
import org.apache.fop.apps.FOUserAgent;
import org.apache.fop.apps.FopFactory;
import org.apache.fop.apps.FopFactoryBuilder;
import org.apache.fop.apps.io.ResourceResolverFactory;
import org.apache.fop.configuration.ConfigurationException;
import org.apache.fop.configuration.DefaultConfigurationBuilder;
import org.apache.fop.events.Event;
import org.apache.fop.events.EventFormatter;
import org.apache.fop.events.model.EventSeverity;
import org.apache.xmlgraphics.io.Resource;
import org.apache.xmlgraphics.io.ResourceResolver;
import org.apache.xmlgraphics.util.MimeConstants;
import org.w3c.dom.Document;

/**
 * Sets a document of formatting objects (W3C, Extensible Stylesheet Language 1.1) as a tagged PDF
 * in {@link Typeface}, whose letters it holds. Nothing outside the document is ever read. The same
 * document gives the same bytes in the same time zone.
 */
public final class Pdf {
  private static final String TYPEFACES = "typeface:///";
  private static final int ID_DIGITS = 32;
  private static final String IDENTIFIER = "/ID [<";
  private static final String MOMENT = "<xmp:MetadataDate>";
  private static final int UTC_LENGTH = "2026-06-30T12:00:00Z".length();

  private Pdf() {}

  /**
   * The document as a PDF.
   *
   * @param formattingObjects a document with {@code fo:root} on top
   * @param title for the window's bar
   * @param day the day it speaks of, which it also bears as the day it was made
   * @param remarks told what does not come out as it should, such as a letter the typeface lacks
   *     (which stands as {@code #}) or a line wider than its room
   * @throws IllegalArgumentException when the document is not one
   */
  public static byte[] of(
      Document formattingObjects, String title, LocalDate day, Consumer<String> remarks) {
    ByteArrayOutputStream out = new ByteArrayOutputStream(1 << 20);
    try {
      FOUserAgent agent = factory().newFOUserAgent();
      agent.setTitle(title);
      agent.setCreator("Vaneward");
      agent.setProducer("Vaneward, by Apache FOP");
      agent.setAccessibility(true);
      agent.setCreationDate(
          Date.from(day.atTime(LocalTime.NOON).atZone(ZoneId.systemDefault()).toInstant()));
      agent.getEventBroadcaster().addEventListener(event -> heard(event, remarks));
      TransformerFactory.newDefaultInstance()
          .newTransformer()
          .transform(
              new DOMSource(formattingObjects),
              new SAXResult(agent.newFop(MimeConstants.MIME_PDF, out).getDefaultHandler()));
    } catch (TransformerException | FOPException e) {
      throw new IllegalArgumentException(
          "these formatting objects cannot be set: " + e.getMessage(), e);
    }
    return withoutTheMoment(out.toByteArray(), day);
  }

  private static void heard(Event event, Consumer<String> remarks) {
    String said = EventFormatter.format(event, Locale.ROOT);
    if (event.getSeverity() == EventSeverity.ERROR || event.getSeverity() == EventSeverity.FATAL) {
      throw new IllegalArgumentException(said);
    }
    if (event.getSeverity() == EventSeverity.WARN) {
      remarks.accept(said);
    }
  }

  // ---- the setter

  private static FopFactory factory() {
    return Holder.FACTORY;
  }

  /** Made when first needed: it reads the typeface. */
  private static final class Holder {
    private static final FopFactory FACTORY = made();

    private static FopFactory made() {
      try {
        URI base = URI.create(TYPEFACES);
        ResourceResolver only = new OnlyTypefaces();
        FopFactoryBuilder builder =
            new FopFactoryBuilder(EnvironmentalProfileFactory.createRestrictedIO(base, only))
                .setConfiguration(
                    new DefaultConfigurationBuilder()
                        .build(
                            new ByteArrayInputStream(
                                configuration().getBytes(StandardCharsets.UTF_8))));
        // Settings bring a way of their own to files.
        builder
            .getFontManager()
            .setResourceResolver(
                ResourceResolverFactory.createInternalResourceResolver(base, only));
        return builder.build();
      } catch (ConfigurationException e) {
        throw new IllegalStateException("the setter's own settings do not hold", e);
      }
    }

    private static String configuration() {
      return "<fop version=\"1.0\"><use-cache>false</use-cache><renderers>"
          + "<renderer mime=\"application/pdf\"><fonts>"
          + Stream.of(Typeface.values()).map(Holder::font).collect(Collectors.joining())
          + "</fonts></renderer></renderers></fop>";
    }

    private static String font(Typeface face) {
      String weight = face == Typeface.BOLD ? "bold" : "normal";
      return Stream.of(Typeface.family(), "any", "sans-serif")
          .map(
              family ->
                  "<font-triplet name=\""
                      + family
                      + "\" style=\"normal\" weight=\""
                      + weight
                      + "\"/>")
          .collect(
              Collectors.joining(
                  "", "<font embed-url=\"" + TYPEFACES + face.file() + "\">", "</font>"));
    }
  }

  /** Opens the typeface's files and nothing else. */
  private static final class OnlyTypefaces implements ResourceResolver {
    private static final Map<URI, Typeface> FACES =
        Stream.of(Typeface.values())
            .collect(Collectors.toMap(face -> URI.create(TYPEFACES + face.file()), face -> face));

    @Override
    public Resource getResource(URI uri) throws IOException {
      Typeface face = FACES.get(uri);
      if (face == null) {
        throw new IOException(uri + ": nothing outside the document is read");
      }
      return new Resource(face.open());
    }

    @Override
    public OutputStream getOutputStream(URI uri) throws IOException {
      throw new IOException(uri + ": nothing is written beside the document");
    }
  }

  // ---- bytes

  /**
   * The file without what differs at each run, replaced by as many bytes so that everything stays
   * where it is: the moment of setting becomes noon of the day, and the identifier (ISO 32000-1,
   * 14.4) one made of the content.
   */
  private static byte[] withoutTheMoment(byte[] pdf, LocalDate day) {
    String text = new String(pdf, StandardCharsets.ISO_8859_1);
    int from = after(MOMENT, text.indexOf(MOMENT));
    int to = text.indexOf('<', from);
    String noon = day.atTime(LocalTime.NOON) + ":00" + (to - from == UTC_LENGTH ? "Z" : "+00:00");
    System.arraycopy(noon.getBytes(StandardCharsets.US_ASCII), 0, pdf, from, to - from);
    int first = after(IDENTIFIER, text.lastIndexOf(IDENTIFIER));
    int second = text.indexOf('<', first) + 1;
    Arrays.fill(pdf, first, first + ID_DIGITS, (byte) '0');
    Arrays.fill(pdf, second, second + ID_DIGITS, (byte) '0');
    byte[] id = Sha256.hex(pdf).toUpperCase(Locale.ROOT).getBytes(StandardCharsets.US_ASCII);
    System.arraycopy(id, 0, pdf, first, ID_DIGITS);
    System.arraycopy(id, 0, pdf, second, ID_DIGITS);
    return pdf;
  }

  private static int after(String mark, int at) {
    if (at < 0) {
      throw new IllegalStateException("the setter wrote no " + mark);
    }
    return at + mark.length();
  }
}
