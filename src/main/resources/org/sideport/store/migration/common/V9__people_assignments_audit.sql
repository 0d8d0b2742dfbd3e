-- From here on a migration stands in "common" if both databases understand it: ${id} makes a counted key, counts and times
-- are bigint, yes and no boolean, measures double precision, moments ISO 8601 text in UTC.

-- People of a shared workspace by their codes; none is listed where one person works alone.
create table person (
    code     text not null primary key,
    active   boolean not null,
    added_at text not null
);

create table person_role (
    person text not null references person (code),
    role   text not null check (role in ('trainee', 'assessor', 'director')),
    primary key (person, role)
);

-- Who took a case in; '' for cases of before, and where nobody signs in.
alter table surgical_case add column added_by text not null default '';

-- A case given to an assessor to mark. hidden lists what he must not learn, label is what the case is called meanwhile.
create table assignment (
    id          text not null primary key,
    case_id     bigint not null references surgical_case (id) on delete cascade,
    assessor    text not null,
    purpose     text not null check (purpose in ('first', 'second', 'third', 'practice')),
    label       text not null unique,
    hidden      text not null,
    state       text not null check (state in ('open', 'done', 'withdrawn')),
    assigned_by text not null,
    assigned_at text not null,
    due_on      text,
    unique (case_id, assessor, purpose)
);
create index assignment_by_assessor on assignment (assessor, state);

-- Who did what when. Each row's digest covers the row and the digest before it, so that none can be altered unseen.
create table audit_event (
    ${id},
    at       text not null,
    who      text not null,
    deed     text not null,
    subject  text not null,
    before   text not null,
    after    text not null,
    previous text not null,
    digest   text not null
);
