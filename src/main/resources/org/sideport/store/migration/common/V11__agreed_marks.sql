-- When the marks of an assignment were signed.
alter table assignment add column done_at text;

-- How the unit wants its marks made; what is not there is as usual.
create table marking_rule (
    name  text not null primary key,
    value text not null
);

-- Marks that people agreed upon: to settle marks that differ too much, or as reference for assessors who practise.
-- The newest of a case, rubric and purpose counts. stands is the signed rating that was taken as it is.
create table agreed_mark (
    id             text not null primary key,
    case_id        bigint not null references surgical_case (id) on delete cascade,
    rubric         text not null,
    rubric_version text not null,
    purpose        text not null check (purpose in ('adjudication', 'reference')),
    stands         bigint references rating (id),
    agreed_by      text not null,
    reason         text not null,
    agreed_at      text not null,
    foreign key (rubric, rubric_version) references rubric_document (rubric, version)
);
create index agreed_mark_by_case on agreed_mark (case_id, purpose);

create table agreed_score (
    mark_id        text not null references agreed_mark (id) on delete cascade,
    item           text not null,
    ordinal        bigint not null,
    points         bigint,
    not_applicable text check (not_applicable in ('done_by_trainer', 'not_visible', 'not_performed')),
    primary key (mark_id, item),
    check ((points is null) <> (not_applicable is null))
);
