/** Expected risk of each case: logistic models, tables of odds ratios, and how well the risks agree with what happened. */
@NullMarked
package org.sideport.stats.casemix;

import org.jspecify.annotations.NullMarked;
