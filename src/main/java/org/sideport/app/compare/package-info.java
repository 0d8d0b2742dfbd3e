/** Two recordings beside each other, and cases as bars above one another. */
@org.jspecify.annotations.NullMarked
package org.sideport.app.compare;
