/** Commands that give cases to assessors, compare marks and settle them. */
@NullMarked
package org.sideport.cli.assign;

import org.jspecify.annotations.NullMarked;
