/** Measuring on a still. */
@NullMarked
package org.sideport.app.measure;

import org.jspecify.annotations.NullMarked;
