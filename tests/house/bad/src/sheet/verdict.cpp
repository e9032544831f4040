// It is safe to say this in a comment.
const char* verdict = "The path is safe.";
