/** Floor 5: case bundles, the form in which one case goes from one store to another. */
@NullMarked
package org.sideport.report.bundle;

import org.jspecify.annotations.NullMarked;
