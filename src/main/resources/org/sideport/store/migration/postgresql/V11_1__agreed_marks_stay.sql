-- What was agreed stays as it was; they go only with their case.
create trigger agreed_mark_is_frozen before update on agreed_mark for each row
    execute function refuse('agreed marks cannot be changed');
create trigger agreed_score_is_frozen before update on agreed_score for each row
    execute function refuse('agreed marks cannot be changed');
