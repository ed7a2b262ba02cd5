"""What a person saw: pieces, findings and lots as frozen records, and their files in and out."""
