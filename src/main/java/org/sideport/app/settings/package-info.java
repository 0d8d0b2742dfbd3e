@NullMarked
package org.sideport.app.settings;

import org.jspecify.annotations.NullMarked;
