/** The competency workbook: tables, the sheets made of them, and the same tables as CSV. */
@NullMarked
package org.sideport.report.workbook;

import org.jspecify.annotations.NullMarked;
