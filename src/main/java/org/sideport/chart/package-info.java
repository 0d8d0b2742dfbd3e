/**
 * Charts as descriptions, and the one renderer that draws them: on the screen, as PNG, as SVG, and onto any other surface
 * that takes {@link java.awt.Graphics2D}, such as a page. Knows no surgery. Rendering needs no screen.
 */
@NullMarked
package org.sideport.chart;

import org.jspecify.annotations.NullMarked;
