-- Areas of a case's picture that nothing handed out may show, in display pixels; to_us is null for the recording's end.
create table hidden_area (
    case_id bigint not null references surgical_case (id) on delete cascade,
    ordinal bigint not null,
    x       bigint not null,
    y       bigint not null,
    width   bigint not null,
    height  bigint not null,
    from_us bigint not null,
    to_us   bigint,
    primary key (case_id, ordinal)
);
