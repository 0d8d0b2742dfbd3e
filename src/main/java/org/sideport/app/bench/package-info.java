/** How fast the screens are, measured on made-up contents. */
@NullMarked
package org.sideport.app.bench;

import org.jspecify.annotations.NullMarked;
