-- What a rating was when it was signed. digest is SHA-256 over the form that the class RatingForm describes; the digests of
-- what the rating rests on stand beside it, so that a difference can be named. recordings: digests in the order of the
-- files, separated by blanks. late: sealed by a later program than the one that it was signed with, so that only what came
-- after sealing can be found.
create table rating_seal (
    rating_id      bigint not null primary key references rating (id) on delete cascade,
    form           text not null,
    digest         text not null check (length(digest) = 64),
    rubric_sha256  text not null,
    tagging_of     text not null,
    tagging_sha256 text not null,
    recordings     text not null,
    amends_digest  text not null,
    late           boolean not null
);

create index audit_event_by_subject on audit_event (subject);
