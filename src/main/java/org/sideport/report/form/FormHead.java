package org.sideport.report.form;

/**
 * What a form is for; kept on its hidden sheet.
 *
 * @param rubricSha256 digest of the rubric's very text
 * @param language language tag of its words, such as {@code en}
 */
public record FormHead(
        String rubric,
        String rubricVersion,
        String rubricSha256,
        String caseCode,
        String assessor,
        boolean self,
        String language) {

    static final String FORMAT = "sideport-marking-form";
    static final int VERSION = 1;
    static final String SHEET = "Sideport";
}
