-- Comments tied to moments, their answers, and what each reader has seen. revision counts the changes within a case:
-- an entry is new to a reader who has seen its thread up to an earlier one.
create table moment_comment (
    id         text primary key,
    case_id    integer not null references surgical_case (id) on delete cascade,
    author     text not null,
    tone       text not null check (tone in ('praise', 'improve', 'question')),
    text       text not null,
    rubric     text,
    item       text,
    from_us    integer not null check (from_us >= 0),
    to_us      integer check (to_us > from_us),
    revision   integer not null,
    changed_at text not null,
    check ((rubric is null) = (item is null))
);
create index comment_by_case on moment_comment (case_id, from_us);

-- points: "x y" in shares of the displayed picture, separated by semicolons.
create table drawn_mark (
    comment_id text not null references moment_comment (id) on delete cascade,
    ordinal    integer not null,
    kind       text not null check (kind in ('arrow', 'line', 'ellipse', 'freehand', 'words')),
    colour     text not null,
    points     text not null,
    words      text not null,
    primary key (comment_id, ordinal)
);

create table comment_reply (
    id         text primary key,
    comment_id text not null references moment_comment (id) on delete cascade,
    author     text not null,
    text       text not null,
    written_at text not null,
    revision   integer not null
);
create index reply_by_comment on comment_reply (comment_id);

create table comment_seen (
    comment_id text not null references moment_comment (id) on delete cascade,
    reader     text not null,
    revision   integer not null,
    primary key (comment_id, reader)
);

-- What was measured on stills; at_us is the start of the frame, points as above.
create table still_measurement (
    id             text primary key,
    case_id        integer not null references surgical_case (id) on delete cascade,
    author         text not null,
    at_us          integer not null check (at_us >= 0),
    display_width  real not null,
    display_height real not null,
    shape          text not null check (shape in ('limbus', 'pupil', 'rhexis', 'distance', 'angle')),
    points         text not null,
    width_mm       real,
    width_sd_mm    real,
    width_own      integer,
    method         text not null,
    warnings       text not null,
    measured_at    text not null,
    check ((shape = 'limbus') = (width_mm is not null))
);
create index measurement_by_case on still_measurement (case_id, at_us);

create table measured_value (
    measurement_id text not null references still_measurement (id) on delete cascade,
    ordinal        integer not null,
    name           text not null,
    unit           text not null,
    value          real not null,
    se             real,
    lower          real,
    upper          real,
    primary key (measurement_id, ordinal)
);
