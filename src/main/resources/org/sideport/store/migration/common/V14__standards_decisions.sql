-- One go of a panel that judges item by item what a person who only just passes would get (Angoff).
create table angoff_round (
    id             text not null primary key,
    rubric         text not null,
    rubric_version text not null,
    number         bigint not null,
    state          text not null check (state in ('open', 'closed')),
    note           text not null,
    opened_by      text not null,
    opened_at      text not null,
    closed_by      text not null,
    closed_at      text,
    unique (rubric, rubric_version, number),
    foreign key (rubric, rubric_version) references rubric_document (rubric, version)
);

-- counted is false for a judge whom the director left out when the round was closed.
create table angoff_judge (
    round_id text not null references angoff_round (id),
    judge    text not null,
    ordinal  bigint not null,
    counted  boolean not null,
    primary key (round_id, judge)
);

-- Nobody but the judge is to read these while the round is open.
create table angoff_value (
    round_id text not null,
    judge    text not null,
    item     text not null,
    points   double precision not null,
    primary key (round_id, judge, item),
    foreign key (round_id, judge) references angoff_judge (round_id, judge)
);

-- A standard as it was agreed: never changed, never deleted, at most superseded. share is of the applicable maximum,
-- basis and warnings hold a line for each, agreed_by codes apart by blanks.
create table standard (
    id             text not null primary key,
    rubric         text not null,
    rubric_version text not null,
    number         bigint not null,
    method         text not null check (method in
        ('angoff', 'borderline_regression', 'borderline_group', 'contrasting_groups', 'agreed')),
    share          double precision not null check (share >= 0 and share <= 1),
    standard_error double precision,
    lower_limit    double precision,
    upper_limit    double precision,
    limits_level   double precision,
    n              bigint,
    agreed_on      text not null,
    agreed_by      text not null,
    basis          text not null,
    warnings       text not null,
    data_digest    text not null,
    note           text not null,
    set_by         text not null,
    set_at         text not null,
    superseded_by  text references standard (id),
    unique (rubric, rubric_version, number),
    foreign key (rubric, rubric_version) references rubric_document (rubric, version)
);

-- What a panel decided about a person, in its own words, with what it was shown. Never changed.
create table decision (
    id             text not null primary key,
    trainee        text not null,
    rubric         text not null,
    rubric_version text not null,
    wording        text not null,
    decided_on     text not null,
    decided_by     text not null,
    shown          text not null,
    shown_digest   text not null,
    recorded_by    text not null,
    recorded_at    text not null
);
create index decision_by_trainee on decision (trainee, decided_on);
