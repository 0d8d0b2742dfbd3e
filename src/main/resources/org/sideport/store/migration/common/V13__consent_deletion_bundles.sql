-- What the unit decided about uses of a case to which there is no consent; what is not listed is as the program has it.
create table consent_rule (
    situation text not null primary key check (situation in ('unknown', 'asked', 'refused', 'other_purpose')),
    ruling    text not null check (ruling in ('allow', 'warn', 'refuse'))
);

-- That something was deleted, when and by whom; nothing of what it was.
create table deletion_log (
    id         text not null primary key,
    deleted_on text not null,
    deleted_by text not null,
    kind       text not null check (kind in ('withdrawn', 'refused', 'retention'))
);

-- Stands only within the transaction that deletes a case: without such a row the database lets no signed rating go.
create table case_deletion (
    case_id bigint not null primary key,
    log_id  text not null references deletion_log (id)
);

create index surgical_case_by_review on surgical_case (review_by);
create index surgical_case_by_consent on surgical_case (consent);

-- Ratings that came in with a case bundle; bundle is the SHA-256 of its file.
create table rating_origin (
    rating_id   bigint not null primary key references rating (id) on delete cascade,
    bundle      text not null,
    imported_by text not null,
    imported_at text not null
);
