/** How a trainee comes along: charts, what they say, and the comments that wait. */
@NullMarked
package org.sideport.app.progress;

import org.jspecify.annotations.NullMarked;
