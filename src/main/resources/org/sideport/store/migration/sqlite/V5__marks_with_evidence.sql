-- What was counted or measured, moments that a mark rests on, and what was agreed to work on next.
alter table item_score add column value real;

create table item_evidence (
    rating_id integer not null references rating (id) on delete cascade,
    item      text not null,
    at_us     integer not null check (at_us >= 0),
    ordinal   integer not null,
    primary key (rating_id, item, ordinal)
);

create table rating_action (
    rating_id integer not null references rating (id) on delete cascade,
    ordinal   integer not null check (ordinal between 0 and 2),
    action    text not null,
    primary key (rating_id, ordinal)
);

-- Frozen with the rating that they belong to.
create trigger signed_evidence_is_complete before insert on item_evidence
when (select state from rating where id = new.rating_id) <> 'draft'
begin
    select raise(abort, 'a signed rating cannot be changed');
end;

create trigger signed_evidence_is_frozen before update on item_evidence
when (select state from rating where id = old.rating_id) <> 'draft'
    or (select state from rating where id = new.rating_id) <> 'draft'
begin
    select raise(abort, 'a signed rating cannot be changed');
end;

create trigger signed_evidence_stays before delete on item_evidence
when (select state from rating where id = old.rating_id) <> 'draft'
begin
    select raise(abort, 'a signed rating cannot be changed');
end;

create trigger signed_action_is_complete before insert on rating_action
when (select state from rating where id = new.rating_id) <> 'draft'
begin
    select raise(abort, 'a signed rating cannot be changed');
end;

create trigger signed_action_is_frozen before update on rating_action
when (select state from rating where id = old.rating_id) <> 'draft'
    or (select state from rating where id = new.rating_id) <> 'draft'
begin
    select raise(abort, 'a signed rating cannot be changed');
end;

create trigger signed_action_stays before delete on rating_action
when (select state from rating where id = old.rating_id) <> 'draft'
begin
    select raise(abort, 'a signed rating cannot be changed');
end;
