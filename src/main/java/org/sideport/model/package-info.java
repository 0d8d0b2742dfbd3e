/** Floor 0: records and enums that every floor shares. Depends on the JDK only; all types are immutable. */
@NullMarked
package org.sideport.model;

import org.jspecify.annotations.NullMarked;
