package words

// fields are the fields of a job by their pattern.
var fields = map[string]field{}

// choices are the words that fields accept.
var choices = map[string]entry{}
