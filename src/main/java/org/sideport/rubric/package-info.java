/** Floor 2: reading, checking and scoring rubrics and procedure files. */
@NullMarked
package org.sideport.rubric;

import org.jspecify.annotations.NullMarked;
