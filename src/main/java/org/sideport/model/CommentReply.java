package org.sideport.model;

/**
 * An answer to a comment.
 *
 * @param id unique for ever
 * @param comment id of the comment
 * @param author code of the person
 */
public record CommentReply(String id, String comment, String author, String text) {

    public CommentReply {
        text = text.strip();
        if (id.isBlank() || comment.isBlank() || author.isBlank()) {
            throw new IllegalArgumentException("an answer needs an id, a comment and an author");
        }
        if (text.isEmpty()) {
            throw new InputException("the answer is empty", null, "write something");
        }
        if (text.length() > Comment.LONGEST_TEXT) {
            throw new InputException(
                    "the answer has " + text.length() + " characters",
                    null,
                    "write " + Comment.LONGEST_TEXT + " at most");
        }
    }

    public CommentReply withText(String newText) {
        return new CommentReply(id, comment, author, newText);
    }
}
