-- Nothing is signed without its seal, and a seal is made once. It goes only with its rating.
create trigger signed_rating_is_sealed before update on rating
when old.state = 'draft' and new.state <> 'draft' and not exists (select 1 from rating_seal where rating_id = old.id)
begin
    select raise(abort, 'a rating is sealed when it is signed');
end;

create trigger seal_is_made_once before insert on rating_seal
when exists (select 1 from rating_seal where rating_id = new.rating_id)
begin
    select raise(abort, 'a seal cannot be changed');
end;

create trigger seal_is_frozen before update on rating_seal
begin
    select raise(abort, 'a seal cannot be changed');
end;

create trigger seal_stays before delete on rating_seal
when exists (select 1 from rating where id = old.rating_id and state <> 'draft')
begin
    select raise(abort, 'a seal cannot be taken away');
end;

-- The audit trail only grows, at its end, by rows that continue its chain.
create trigger audit_is_frozen before update on audit_event
begin
    select raise(abort, 'the audit trail cannot be changed');
end;

create trigger audit_stays before delete on audit_event
begin
    select raise(abort, 'the audit trail cannot be cut');
end;

-- The first condition is for "insert or replace", which deletes without asking the triggers.
create trigger audit_continues before insert on audit_event
when exists (select 1 from audit_event where id = new.id)
    or new.previous <> coalesce((select digest from audit_event order by id desc limit 1), '')
begin
    select raise(abort, 'the audit trail is continued at its end only');
end;

create trigger audit_grows_at_its_end after insert on audit_event
when new.id <> (select max(id) from audit_event)
begin
    select raise(abort, 'the audit trail is continued at its end only');
end;
