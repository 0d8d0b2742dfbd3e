package org.sideport.model;

import java.util.List;

/**
 * A comment with its answers, as one reader sees it.
 *
 * @param replies in the order in which they were first written
 * @param unread whether somebody else wrote or changed something that the reader has not seen
 */
public record CommentThread(Comment comment, List<CommentReply> replies, boolean unread) {

    public CommentThread {
        replies = List.copyOf(replies);
    }
}
