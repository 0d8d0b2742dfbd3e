-- Times are integer microseconds, dates ISO 8601 text, codes as people write them.

create table surgical_case (
    id           integer primary key,
    code         text not null unique collate nocase,
    trainee      text not null,
    operated_on  text not null,
    procedure_id text not null
);

create table case_descriptor (
    case_id integer not null references surgical_case (id) on delete cascade,
    name    text not null,
    value   text not null,
    primary key (case_id, name)
);

-- path is relative to the workspace where one can be made, with forward slashes; else absolute.
create table segment (
    id            integer primary key,
    case_id       integer not null references surgical_case (id) on delete cascade,
    ordinal       integer not null,
    path          text not null,
    sha256        text not null,
    size          integer not null,
    duration_us   integer not null,
    frames        integer not null,
    first_us      integer not null,
    fps_num       integer not null,
    fps_den       integer not null,
    variable_rate integer not null,
    codec         text not null,
    width         integer not null,
    height        integer not null,
    sample_aspect text not null,
    rotation      integer not null,
    interlaced    integer not null,
    audio         integer not null,
    identity_tags text not null,
    unique (case_id, ordinal)
);
create index segment_by_content on segment (sha256);

create table tagging (
    id         integer primary key,
    case_id    integer not null references surgical_case (id) on delete cascade,
    annotator  text not null,
    style      text not null check (style in ('starts_only', 'start_and_end')),
    changed_at text not null,
    unique (case_id, annotator)
);

-- end_us is null while the last phase runs on.
create table phase_span (
    tagging_id integer not null references tagging (id) on delete cascade,
    phase      text not null,
    start_us   integer not null check (start_us >= 0),
    end_us     integer check (end_us > start_us),
    operator   text check (operator in ('trainee', 'trainer', 'assisted')),
    primary key (tagging_id, start_us)
);

create table point_event (
    id         integer primary key,
    tagging_id integer not null references tagging (id) on delete cascade,
    kind       text not null,
    at_us      integer not null check (at_us >= 0),
    severity   text check (severity in ('minor', 'moderate', 'major')),
    note       text not null
);

-- The very text of each rubric that a rating was made with, so that it can always be scored again.
create table rubric_document (
    rubric  text not null,
    version text not null,
    json    text not null,
    primary key (rubric, version)
);

create table rating (
    id             integer primary key,
    case_id        integer not null references surgical_case (id) on delete cascade,
    rubric         text not null,
    rubric_version text not null,
    assessor       text not null,
    self           integer not null,
    blind          integer not null,
    comment        text not null,
    state          text not null check (state in ('draft', 'signed', 'superseded')),
    changed_at     text not null,
    signed_at      text,
    amends         integer references rating (id),
    reason         text,
    foreign key (rubric, rubric_version) references rubric_document (rubric, version)
);
create index rating_by_case on rating (case_id);

-- One rating in force (draft or signed) for an assessor, a case and a rubric; a draft amendment stands beside what it amends.
create unique index one_draft on rating (case_id, rubric, assessor, self) where state = 'draft';
create unique index one_signed on rating (case_id, rubric, assessor, self) where state = 'signed';

create table item_score (
    rating_id      integer not null references rating (id) on delete cascade,
    item           text not null,
    points         integer,
    not_applicable text check (not_applicable in ('done_by_trainer', 'not_visible', 'not_performed')),
    comment        text not null,
    primary key (rating_id, item),
    check ((points is null) <> (not_applicable is null))
);

-- What has been signed stays as it was: only its supersession may be recorded.
create trigger signed_rating_is_frozen before update on rating
when old.state <> 'draft' and (
    new.state <> 'superseded' or old.state = 'superseded'
    or new.case_id <> old.case_id or new.rubric <> old.rubric or new.rubric_version <> old.rubric_version
    or new.assessor <> old.assessor or new.self <> old.self or new.blind <> old.blind
    or new.comment <> old.comment or new.signed_at is not old.signed_at)
begin
    select raise(abort, 'a signed rating cannot be changed');
end;

create trigger signed_score_is_frozen before update on item_score
when (select state from rating where id = old.rating_id) <> 'draft'
begin
    select raise(abort, 'a signed rating cannot be changed');
end;

create trigger signed_score_stays before delete on item_score
when (select state from rating where id = old.rating_id) <> 'draft'
begin
    select raise(abort, 'a signed rating cannot be changed');
end;

create trigger signed_score_is_complete before insert on item_score
when (select state from rating where id = new.rating_id) <> 'draft'
begin
    select raise(abort, 'a signed rating cannot be changed');
end;

-- Nor can it be deleted (by itself or with its case), replaced, inserted as signed, or have its rubric's text changed.
create trigger signed_rating_stays before delete on rating
when old.state <> 'draft'
begin
    select raise(abort, 'a signed rating cannot be deleted');
end;

create trigger rating_begins_as_draft before insert on rating
when new.state <> 'draft' or exists (select 1 from rating where id = new.id and state <> 'draft')
begin
    select raise(abort, 'a rating begins as a draft of its own');
end;

create trigger signed_rating_keeps_its_history before update on rating
when old.state <> 'draft' and (
    new.id <> old.id or new.changed_at <> old.changed_at
    or new.amends is not old.amends or new.reason is not old.reason)
begin
    select raise(abort, 'a signed rating cannot be changed');
end;

create trigger signed_score_takes_no_other before update on item_score
when (select state from rating where id = new.rating_id) <> 'draft'
begin
    select raise(abort, 'a signed rating cannot be changed');
end;

create trigger rubric_text_is_frozen before update on rubric_document
begin
    select raise(abort, 'the text of a rubric version cannot be changed');
end;

-- Of no use but to "insert or replace", which deletes without asking the triggers.
create trigger rubric_text_is_kept_once before insert on rubric_document
when exists (select 1 from rubric_document where rubric = new.rubric and version = new.version)
begin
    select raise(abort, 'the text of a rubric version cannot be changed');
end;
