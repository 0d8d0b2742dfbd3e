/**
 * Control charts and sequential tests of consecutive cases: yes/no outcomes and measured values, each with the run
 * lengths of the very chart, so that a reader sees how far its verdict may be trusted.
 */
@NullMarked
package org.sideport.stats.monitoring;

import org.jspecify.annotations.NullMarked;
