"""The owner's bench: edits tried before they are saved, brands measured, proofs, taste against seconds."""
