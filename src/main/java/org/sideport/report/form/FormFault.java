package org.sideport.report.form;

/**
 * What is wrong in one cell of a form.
 *
 * @param cell as spreadsheet programs name it, with its sheet: {@code Marking!H7}
 * @param what what is wrong
 * @param remedy what to write instead
 */
public record FormFault(String cell, String what, String remedy) {

    public String text() {
        return cell + ": " + what + " — " + remedy;
    }
}
