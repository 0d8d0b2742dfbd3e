-- Ways round the first version's triggers are closed: deleting a signed rating (by itself or with its case), replacing it,
-- inserting one as signed, moving another's mark into it, and changing the text of the rubric that it was made with.

create trigger signed_rating_stays before delete on rating
when old.state <> 'draft'
begin
    select raise(abort, 'a signed rating cannot be deleted');
end;

create trigger rating_begins_as_draft before insert on rating
when new.state <> 'draft' or exists (select 1 from rating where id = new.id and state <> 'draft')
begin
    select raise(abort, 'a rating begins as a draft of its own');
end;

create trigger signed_rating_keeps_its_history before update on rating
when old.state <> 'draft' and (
    new.id <> old.id or new.changed_at <> old.changed_at
    or new.amends is not old.amends or new.reason is not old.reason)
begin
    select raise(abort, 'a signed rating cannot be changed');
end;

create trigger signed_score_takes_no_other before update on item_score
when (select state from rating where id = new.rating_id) <> 'draft'
begin
    select raise(abort, 'a signed rating cannot be changed');
end;

create trigger rubric_text_is_frozen before update on rubric_document
begin
    select raise(abort, 'the text of a rubric version cannot be changed');
end;

-- Of no use but to "insert or replace", which deletes without asking the triggers.
create trigger rubric_text_is_kept_once before insert on rubric_document
when exists (select 1 from rubric_document where rubric = new.rubric and version = new.version)
begin
    select raise(abort, 'the text of a rubric version cannot be changed');
end;
