package org.sideport.store;

import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import org.jdbi.v3.core.Handle;
import org.sideport.model.Assignment;
import org.sideport.model.Comment;
import org.sideport.model.CommentReply;
import org.sideport.model.CommentThread;
import org.sideport.model.CommentTone;
import org.sideport.model.DrawnMark;
import org.sideport.model.ItemLink;
import org.sideport.model.MarkColour;
import org.sideport.model.MediaTime;

/** Comments of cases with their drawings and answers, and what each reader has seen of them. */
public final class CommentStore {

    private static final String COMMENT_COLUMNS =
            "select id, author, tone, text, rubric, item, from_us, to_us from moment_comment ";
    private static final String REPLY_COLUMNS = "select id, comment_id, author, text from comment_reply ";

    private final Handle handle;
    private final Veil veil;
    private final AuditStore audit;

    CommentStore(Handle handle, Veil veil, AuditStore audit) {
        this.handle = handle;
        this.veil = veil;
        this.audit = audit;
    }

    /**
     * All comments of a case by time, as a reader sees them.
     *
     * @throws org.sideport.model.InputException if there is no such case
     */
    public List<CommentThread> threads(String caseCode, String reader) {
        long caseId = veil.caseId(caseCode);
        Map<String, Long> newest = new HashMap<>();
        handle.createQuery("select e.thread, max(e.revision) as newest from ("
                        + "select id as thread, author, revision from moment_comment where case_id = :caseId"
                        + " union all select r.comment_id, r.author, r.revision from comment_reply r"
                        + " join moment_comment c on c.id = r.comment_id where c.case_id = :caseId) e"
                        + " where e.author <> :reader group by e.thread")
                .bind("caseId", caseId)
                .bind("reader", reader)
                .map((row, context) -> Map.entry(row.getString("thread"), row.getLong("newest")))
                .forEach(entry -> newest.put(entry.getKey(), entry.getValue()));
        Map<String, Long> seen = new HashMap<>();
        handle.createQuery("select s.comment_id, s.revision from comment_seen s join moment_comment c"
                        + " on c.id = s.comment_id where c.case_id = :caseId and s.reader = :reader")
                .bind("caseId", caseId)
                .bind("reader", reader)
                .map((row, context) -> Map.entry(row.getString("comment_id"), row.getLong("revision")))
                .forEach(entry -> seen.put(entry.getKey(), entry.getValue()));
        String only = veil.through(caseCode).map(Assignment::assessor).orElse(null);
        List<CommentThread> threads = new ArrayList<>();
        for (Comment comment : comments("where case_id = :key order by from_us, rowid", caseId)) {
            if (only != null && !comment.author().equals(only)) {
                continue;
            }
            List<CommentReply> replies = replies(comment.id()).stream()
                    .filter(r -> only == null || r.author().equals(only))
                    .toList();
            long other = only != null ? 0 : newest.getOrDefault(comment.id(), 0L);
            threads.add(new CommentThread(comment, replies, other > seen.getOrDefault(comment.id(), 0L)));
        }
        return threads;
    }

    public Optional<Comment> find(String id) {
        return comments("where id = :key", id).stream().findFirst();
    }

    public Optional<CommentReply> findReply(String id) {
        return handle.createQuery(REPLY_COLUMNS + "where id = :id")
                .bind("id", id)
                .map((row, context) -> new CommentReply(
                        row.getString("id"),
                        row.getString("comment_id"),
                        row.getString("author"),
                        row.getString("text")))
                .findOne();
    }

    /** In the order in which they were first written. */
    public List<CommentReply> replies(String comment) {
        return handle.createQuery(REPLY_COLUMNS + "where comment_id = :comment order by written_at, rowid")
                .bind("comment", comment)
                .map((row, context) -> new CommentReply(
                        row.getString("id"),
                        row.getString("comment_id"),
                        row.getString("author"),
                        row.getString("text")))
                .list();
    }

    private List<Comment> comments(String where, Object key) {
        return handle.createQuery(COMMENT_COLUMNS + where)
                .bind("key", key)
                .map((row, context) -> {
                    String rubric = row.getString("rubric");
                    String item = row.getString("item");
                    return new Comment(
                            row.getString("id"),
                            row.getString("author"),
                            CommentTone.parse(row.getString("tone")),
                            row.getString("text"),
                            rubric == null || item == null ? null : new ItemLink(rubric, item),
                            MediaTime.ofMicros(row.getLong("from_us")),
                            row.getObject("to_us") == null ? null : MediaTime.ofMicros(row.getLong("to_us")),
                            marks(row.getString("id")),
                            VoiceRows.find(handle, row.getString("id")));
                })
                .list();
    }

    private List<DrawnMark> marks(String comment) {
        return handle.createQuery(
                        "select kind, colour, points, words from drawn_mark where comment_id = :comment order by"
                                + " ordinal")
                .bind("comment", comment)
                .map((row, context) -> new DrawnMark(
                        DrawnMark.Kind.valueOf(row.getString("kind").toUpperCase(Locale.ROOT)),
                        MarkColour.parse(row.getString("colour")),
                        PointText.read(row.getString("points")),
                        row.getString("words")))
                .list();
    }

    /** Keeps a comment, in the place of the one with its id if there is one. */
    public void save(String caseCode, Comment comment) {
        veil.requireAssessor(caseCode, comment.author());
        long caseId = veil.caseId(caseCode);
        ItemLink item = comment.item();
        MediaTime to = comment.to();
        handle.createUpdate("insert into moment_comment (id, case_id, author, tone, text, rubric, item, from_us, to_us,"
                        + " revision, changed_at) values (:id, :caseId, :author, :tone, :text, :rubric, :item, :from,"
                        + " :to, :revision, :now) on conflict (id) do update set tone = excluded.tone,"
                        + " text = excluded.text, rubric = excluded.rubric, item = excluded.item,"
                        + " from_us = excluded.from_us, to_us = excluded.to_us, revision = excluded.revision,"
                        + " changed_at = excluded.changed_at")
                .bind("id", comment.id())
                .bind("caseId", caseId)
                .bind("author", comment.author())
                .bind("tone", comment.tone().id())
                .bind("text", comment.text())
                .bind("rubric", item == null ? null : item.rubric())
                .bind("item", item == null ? null : item.item())
                .bind("from", comment.from().micros())
                .bind("to", to == null ? null : (Long) to.micros())
                .bind("revision", nextRevision(caseId))
                .bind("now", Instant.now().toString())
                .execute();
        VoiceRows.save(handle, comment.id(), comment.voice());
        handle.execute("delete from drawn_mark where comment_id = ?", comment.id());
        for (int i = 0; i < comment.drawing().size(); i++) {
            DrawnMark mark = comment.drawing().get(i);
            handle.execute(
                    "insert into drawn_mark (comment_id, ordinal, kind, colour, points, words)"
                            + " values (?, ?, ?, ?, ?, ?)",
                    comment.id(),
                    i,
                    mark.kind().id(),
                    mark.colour().id(),
                    PointText.write(mark.points()),
                    mark.words());
        }
    }

    public void delete(Comment comment) {
        caseOf("moment_comment m on m.case_id = c.id where m.id = :id", comment.id())
                .ifPresent(code -> audit.add("comment.delete", code, "comment by " + comment.author(), ""));
        handle.execute("delete from moment_comment where id = ?", comment.id());
    }

    /** Keeps an answer, in the place of the one with its id if there is one. */
    public void save(String caseCode, CommentReply reply) {
        veil.requireAssessor(caseCode, reply.author());
        handle.execute(
                "insert into comment_reply (id, comment_id, author, text, written_at, revision)"
                        + " values (?, ?, ?, ?, ?, ?) on conflict (id) do update set text = excluded.text,"
                        + " revision = excluded.revision",
                reply.id(),
                reply.comment(),
                reply.author(),
                reply.text(),
                Instant.now().toString(),
                nextRevision(veil.caseId(caseCode)));
    }

    public void delete(CommentReply reply) {
        caseOf(
                        "moment_comment m on m.case_id = c.id join comment_reply r on r.comment_id = m.id where r.id ="
                                + " :id",
                        reply.id())
                .ifPresent(code -> audit.add("comment.delete", code, "answer by " + reply.author(), ""));
        handle.execute("delete from comment_reply where id = ?", reply.id());
    }

    private Optional<String> caseOf(String joined, String id) {
        return handle.createQuery("select c.code from surgical_case c join " + joined)
                .bind("id", id)
                .mapTo(String.class)
                .findOne();
    }

    /** Notes that the reader has seen all of a thread as it is now. */
    public void markSeen(String caseCode, String comment, String reader) {
        handle.execute(
                "insert into comment_seen (comment_id, reader, revision) values (?, ?, ?)"
                        + " on conflict (comment_id, reader) do update set revision = excluded.revision",
                comment,
                reader,
                nextRevision(veil.caseId(caseCode)) - 1);
    }

    /** Makes all of a thread new to the reader again. */
    public void markUnseen(String comment, String reader) {
        handle.execute("delete from comment_seen where comment_id = ? and reader = ?", comment, reader);
    }

    /** Codes of the cases that a voice with this digest belongs to. */
    public List<String> casesOfVoice(String sha256) {
        return handle.createQuery("select distinct c.code from spoken_comment s"
                        + " join moment_comment m on m.id = s.comment_id join surgical_case c on c.id = m.case_id"
                        + " where s.sha256 = :sha order by c.code")
                .bind("sha", sha256)
                .mapTo(String.class)
                .list();
    }

    /** Digests of all voices of all cases. */
    public Set<String> voices() {
        return VoiceRows.digests(handle);
    }

    private long nextRevision(long caseId) {
        Long last = handle.createQuery("select max(revision) from ("
                        + "select revision from moment_comment where case_id = :caseId"
                        + " union all select r.revision from comment_reply r join moment_comment c"
                        + " on c.id = r.comment_id where c.case_id = :caseId"
                        + " union all select s.revision from comment_seen s join moment_comment c"
                        + " on c.id = s.comment_id where c.case_id = :caseId) of_case")
                .bind("caseId", caseId)
                .mapTo(Long.class)
                .findOne()
                .orElse(null);
        return Objects.requireNonNullElse(last, 0L) + 1;
    }
}
