/** Commands of standard setting and of decisions. */
@NullMarked
package org.sideport.cli.standard;

import org.jspecify.annotations.NullMarked;
