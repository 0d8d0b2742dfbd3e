-- Places where a recording may show less time than went by. decided_by is empty while nobody has decided.
create table recording_cut (
    case_id    integer not null references surgical_case (id) on delete cascade,
    from_us    integer not null check (from_us >= 0),
    to_us      integer not null check (to_us >= from_us),
    kind       text not null check (kind in ('inside_file', 'between_files', 'seen')),
    state      text not null check (state in ('proposed', 'accepted', 'dismissed')),
    evidence   text not null,
    decided_by text not null,
    primary key (case_id, from_us, kind),
    check ((state = 'proposed') = (decided_by = ''))
);
