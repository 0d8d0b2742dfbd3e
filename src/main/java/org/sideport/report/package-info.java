/** Floor 5: what people take away. */
@NullMarked
package org.sideport.report;

import org.jspecify.annotations.NullMarked;
