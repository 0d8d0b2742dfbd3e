/** Who sits here: signing in and out, the time-out that covers the screen, and the people of the programme. */
@NullMarked
package org.sideport.app.people;

import org.jspecify.annotations.NullMarked;
