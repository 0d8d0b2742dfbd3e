/** Consent, how long cases are kept, and deleting: a part of the programme's screen. */
@NullMarked
package org.sideport.app.keeping;

import org.jspecify.annotations.NullMarked;
