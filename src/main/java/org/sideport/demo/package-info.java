/** Floor 5: a schematic eye operation with known truth, for the demo and for tests. */
@NullMarked
package org.sideport.demo;

import org.jspecify.annotations.NullMarked;
