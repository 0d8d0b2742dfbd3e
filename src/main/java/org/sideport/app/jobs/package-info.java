@NullMarked
package org.sideport.app.jobs;

import org.jspecify.annotations.NullMarked;
