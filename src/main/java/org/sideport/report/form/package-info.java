/** Floor 5: marking forms as workbooks, to be filled in without the program. */
@NullMarked
package org.sideport.report.form;

import org.jspecify.annotations.NullMarked;
