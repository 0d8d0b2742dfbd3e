-- A closed round keeps its values, its judges and its note.
create trigger closed_round_is_frozen before update on angoff_round
when old.state <> 'open'
begin
    select raise(abort, 'a closed round cannot be changed');
end;

create trigger closed_round_stays before delete on angoff_round
when old.state <> 'open'
begin
    select raise(abort, 'a closed round cannot be deleted');
end;

create trigger round_begins_open before insert on angoff_round
when new.state <> 'open' or exists (select 1 from angoff_round where id = new.id)
begin
    select raise(abort, 'a round begins open, once');
end;

create trigger closed_round_takes_no_judge before insert on angoff_judge
when (select state from angoff_round where id = new.round_id) <> 'open'
begin
    select raise(abort, 'a closed round cannot be changed');
end;

create trigger closed_round_keeps_its_judge before update on angoff_judge
when (select state from angoff_round where id = old.round_id) <> 'open'
    or (select state from angoff_round where id = new.round_id) <> 'open'
begin
    select raise(abort, 'a closed round cannot be changed');
end;

create trigger closed_round_loses_no_judge before delete on angoff_judge
when (select state from angoff_round where id = old.round_id) <> 'open'
begin
    select raise(abort, 'a closed round cannot be changed');
end;

create trigger closed_round_takes_no_value before insert on angoff_value
when (select state from angoff_round where id = new.round_id) <> 'open'
begin
    select raise(abort, 'a closed round cannot be changed');
end;

create trigger closed_round_keeps_its_value before update on angoff_value
when (select state from angoff_round where id = old.round_id) <> 'open'
    or (select state from angoff_round where id = new.round_id) <> 'open'
begin
    select raise(abort, 'a closed round cannot be changed');
end;

create trigger closed_round_loses_no_value before delete on angoff_value
when (select state from angoff_round where id = old.round_id) <> 'open'
begin
    select raise(abort, 'a closed round cannot be changed');
end;

-- Of an agreed standard only the pointer to its successor may be set, once.
create trigger standard_is_frozen before update on standard
when old.superseded_by is not null or new.superseded_by is null
    or new.id <> old.id or new.rubric <> old.rubric or new.rubric_version <> old.rubric_version
    or new.number <> old.number or new.method <> old.method or new.share <> old.share
    or new.standard_error is not old.standard_error or new.lower_limit is not old.lower_limit
    or new.upper_limit is not old.upper_limit or new.limits_level is not old.limits_level or new.n is not old.n
    or new.agreed_on <> old.agreed_on or new.agreed_by <> old.agreed_by or new.basis <> old.basis
    or new.warnings <> old.warnings or new.data_digest <> old.data_digest or new.note <> old.note
    or new.set_by <> old.set_by or new.set_at <> old.set_at
begin
    select raise(abort, 'an agreed standard cannot be changed');
end;

create trigger standard_stays before delete on standard
begin
    select raise(abort, 'an agreed standard cannot be deleted');
end;

-- Of no use but to "insert or replace", which deletes without asking the triggers.
create trigger standard_is_set_once before insert on standard
when exists (select 1 from standard where id = new.id
    or rubric = new.rubric and rubric_version = new.rubric_version and number = new.number)
begin
    select raise(abort, 'an agreed standard cannot be changed');
end;

create trigger decision_is_frozen before update on decision
begin
    select raise(abort, 'a recorded decision cannot be changed');
end;

create trigger decision_stays before delete on decision
begin
    select raise(abort, 'a recorded decision cannot be deleted');
end;

create trigger decision_is_recorded_once before insert on decision
when exists (select 1 from decision where id = new.id)
begin
    select raise(abort, 'a recorded decision cannot be changed');
end;
