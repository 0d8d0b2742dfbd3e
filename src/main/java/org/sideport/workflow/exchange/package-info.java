/** Floor 6: what goes out of one store and into another: case bundles, marking forms, a person's own data. */
@NullMarked
package org.sideport.workflow.exchange;

import org.jspecify.annotations.NullMarked;
