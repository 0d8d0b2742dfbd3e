package org.sideport.cli;
import org.sideport.report.WorkbookData;
final class CohortTables { private CohortTables(){} static void print(Console console, WorkbookData data) {} }
