-- What was agreed stays as it was; they go only with their case.
create trigger agreed_mark_is_frozen before update on agreed_mark
begin
    select raise(abort, 'agreed marks cannot be changed');
end;

create trigger agreed_score_is_frozen before update on agreed_score
begin
    select raise(abort, 'agreed marks cannot be changed');
end;
