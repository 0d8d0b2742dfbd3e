-- Consent to the use of the recording, and the day by which it must be looked at again for deletion.
alter table surgical_case add column consent text not null default 'unknown'
    check (consent in ('unknown', 'asked', 'given', 'refused', 'withdrawn'));
alter table surgical_case add column consent_purposes text not null default '';
alter table surgical_case add column consent_by text not null default '';
alter table surgical_case add column consent_on text;
alter table surgical_case add column review_by text;

-- Every change of a case sheet after it was taken in, for good.
create table case_change (
    id         integer primary key,
    case_id    integer not null references surgical_case (id) on delete cascade,
    changed_at text not null,
    changed_by text not null,
    field      text not null,
    before     text not null,
    after      text not null
);
create index case_change_by_case on case_change (case_id);

create index surgical_case_by_date on surgical_case (operated_on, code);
