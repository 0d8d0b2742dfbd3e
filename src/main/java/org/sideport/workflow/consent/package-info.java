/** Floor 6: what consent allows, what is due for review, and deleting for good. */
@NullMarked
package org.sideport.workflow.consent;

import org.jspecify.annotations.NullMarked;
