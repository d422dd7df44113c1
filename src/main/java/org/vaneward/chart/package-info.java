/**
 * Results to pictures. Knows XChart and Batik's SVG writer; nothing else does.
 *
 * <p>XChart lays out and paints lines, bands and markers. Its axes cannot do what these pictures
 * need (probability paper, labels within a decade, dates free of a default zone) and it paints text
 * as outlines, so every axis is linear, grid lines are series of our own, and all text is written
 * as SVG text by {@link org.vaneward.chart.SvgWriter}: small files whose words can be searched,
 * read aloud and zoomed.
 *
 * <p>The Java font system must start, even though no text is painted: a machine without fontconfig
 * and one font cannot draw. The system property {@code java.awt.headless} should be {@code true}.
 */
@NullMarked
package org.vaneward.chart;

import org.jspecify.annotations.NullMarked;
