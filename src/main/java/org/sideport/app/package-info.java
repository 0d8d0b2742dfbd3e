/** Floor 7: the desktop face (JavaFX). No rule of the trade lives here. */
@NullMarked
package org.sideport.app;

import org.jspecify.annotations.NullMarked;
