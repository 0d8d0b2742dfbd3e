/** Parts of the programme's screen: standards that people agree, and what a panel looks at before it decides. */
@NullMarked
package org.sideport.app.standard;

import org.jspecify.annotations.NullMarked;
