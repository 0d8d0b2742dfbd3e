/** Generalisability theory: which sources of variance a score has, and how many cases and raters a decision needs. */
@NullMarked
package org.sideport.stats.gtheory;

import org.jspecify.annotations.NullMarked;
