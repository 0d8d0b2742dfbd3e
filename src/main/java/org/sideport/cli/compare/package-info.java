/** Cases beside each other, and exemplars. */
@NullMarked
package org.sideport.cli.compare;

import org.jspecify.annotations.NullMarked;
