-- Which starts and ends of phases ('phase') and which events ('event') an annotator has gone back to and confirmed on the
-- exact frame. Known by its time: what is moved is no longer confirmed.
create table confirmed_boundary (
    tagging_id integer not null references tagging (id) on delete cascade,
    kind       text not null check (kind in ('phase', 'event')),
    at_us      integer not null check (at_us >= 0),
    primary key (tagging_id, kind, at_us)
);
