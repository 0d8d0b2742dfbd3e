/** Floor 5: what people take away to read: pages for browsers and paper, out of the same templates. */
@NullMarked
package org.sideport.report.page;

import org.jspecify.annotations.NullMarked;
