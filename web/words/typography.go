package words

import "strings"

// French keeps a space that does not break before its high signs and within its quotation
// marks. The wordings are written with plain spaces, which can be told apart by eye; they
// are set here.
var frenchSigns = strings.NewReplacer(" :", "\u00a0:", " ;", "\u202f;", " !", "\u202f!", " ?", "\u202f?", "« ", "«\u00a0", " »", "\u00a0»")

// typeset is a wording with its spaces as the language sets them.
func (l Language) typeset(wording string) string {
	if l.Plain() != French || !strings.ContainsAny(wording, ":;!?«»") {
		return wording
	}
	return frenchSigns.Replace(wording)
}

// Semicolon parts sentences that stand in a row.
func (l Language) Semicolon() string {
	if l.Plain() == French {
		return "\u202f; "
	}
	return "; "
}

// Colon parts what is named from what is said of it.
func (l Language) Colon() string {
	if l.Plain() == French {
		return "\u00a0: "
	}
	return ": "
}
