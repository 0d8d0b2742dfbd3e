-- Recordings that a consultant named as showing how a procedure is done. One of a procedure is the usual one.
create table exemplar (
    case_id      integer not null references surgical_case (id) on delete cascade,
    annotator    text not null,
    procedure_id text not null,
    title        text not null,
    why          text not null,
    named_by     text not null,
    named_at     text not null,
    usual        integer not null check (usual in (0, 1)),
    primary key (case_id, annotator)
);

create unique index exemplar_one_usual on exemplar (procedure_id) where usual = 1;
