/** Case bundles and marking forms: what goes out of the store as a file, and comes in as one. */
@NullMarked
package org.sideport.app.exchange;

import org.jspecify.annotations.NullMarked;
