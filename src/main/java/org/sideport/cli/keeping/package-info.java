/** Commands about consent, retention and deletion. */
@NullMarked
package org.sideport.cli.keeping;

import org.jspecify.annotations.NullMarked;
