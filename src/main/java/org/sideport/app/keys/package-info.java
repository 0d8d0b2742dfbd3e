/** The keys that start phases, as each person likes them. */
@NullMarked
package org.sideport.app.keys;

import org.jspecify.annotations.NullMarked;
