// Package store says how documents are kept: each with all its revisions, and with
// photos and files beside it. It holds the interface that pages work with and a store
// in memory; the one in a file is in store/sqlite. Package storetest proves of any
// store that it keeps what is promised here.
//
// A document is bytes to a store. What is in it, and how two versions of it are merged,
// is the business of packages job and changes.
package store

import (
	"context"
	"fmt"
	"time"
)

// Kind says what a document is about.
type Kind string

// The kinds of document.
const (
	Job         Kind = "job"
	Control     Kind = "control"     // a control as its manual describes it, for reuse
	Library     Kind = "library"     // constructions and emitters of the installer's own
	Visit       Kind = "visit"       // what was done and measured on a day; belongs to a job
	Log         Kind = "log"         // temperatures recorded over days; belongs to a job
	Remark      Kind = "remark"      // what the household said on a day; belongs to a job
	Preferences Kind = "preferences" // units, language, prices
)

func (k Kind) known() bool {
	switch k {
	case Job, Control, Library, Visit, Log, Remark, Preferences:
		return true
	}
	return false
}

// State says where a document lies.
type State string

// The states of a document. Any is for a query only.
const (
	Active   State = "active"
	Archived State = "archived"
	Trashed  State = "trashed"
	Any      State = "any"
)

func (s State) known() bool { return s == Active || s == Archived || s == Trashed }

// Entry is a document as a list shows it.
type Entry struct {
	ID        string
	Kind      Kind
	Parent    string // what it belongs to: the job of a visit or a log
	Title     string
	About     string // one line for lists
	State     State
	Revision  int // the newest
	Created   time.Time
	Changed   time.Time // when the newest revision was saved
	ChangedBy string
}

// Revision is a document as it was saved once. The first has the number 1.
type Revision struct {
	Number   int
	When     time.Time
	By       string
	What     string // what changed, readable: "site: design outdoor 0 °F → −5 °F"
	Undoes   int    // the revision that this one takes back, or brings again; 0 for neither
	Typed    bool   // it saved itself while somebody typed
	Document []byte // nil in a history
}

// Change is what a new revision brings.
type Change struct {
	Title, About string
	Document     []byte
	By, What     string
	Undoes       int
	Typed        bool
}

// Order sorts a list. The newest comes first; equal ones go by their ID.
type Order string

// The orders of a list. The zero Order is ByChanged.
const (
	ByChanged Order = "changed"
	ByTitle   Order = "title"
	ByCreated Order = "created"
)

// Query chooses among documents. The zero Query finds all that are active, the last
// changed first.
type Query struct {
	Kind   Kind   // empty: all kinds
	Parent string // empty: whatever they belong to
	State  State  // empty: Active; or Any
	Text   string // words that must all stand in title or about; see [Fold]
	Sort   Order
	Limit  int // 0: all
	Offset int
}

// File is a photo or another file beside a document.
type File struct {
	Name string
	Type string // media type: image/jpeg
	Data []byte
}

// FileEntry is a file as a list shows it.
type FileEntry struct {
	ID, Name, Type string
	Size           int // bytes
	Added          time.Time
}

// Store keeps documents. Its methods may be called from several goroutines. Every
// error leaves everything as it was; those that a person can do something about are a
// [Trouble] or a [*Conflict], for errors.Is and errors.As.
type Store interface {
	// List gives the entries found, from Offset as many as Limit, and how many there
	// are in all.
	List(ctx context.Context, q Query) (entries []Entry, all int, err error)
	// Read gives a document with its newest revision.
	Read(ctx context.Context, id string) (Entry, Revision, error)
	// ReadRevision gives one revision of a document.
	ReadRevision(ctx context.Context, id string, number int) (Revision, error)
	// History lists the revisions of a document, the newest first, without what they hold:
	// those numbered below a number, and of these no more than most. 0 sets no bound.
	History(ctx context.Context, id string, below, most int) ([]Revision, error)

	// Create keeps a new document. Of the entry it takes Kind, Parent, Title and About.
	Create(ctx context.Context, e Entry, document []byte, by, what string) (Entry, error)
	// Save keeps a new revision. The change was made to the revision base; if that is
	// no longer the newest, the error is a *Conflict. When Save returns without an
	// error, the revision outlasts a power cut, as far as the store outlasts the program.
	Save(ctx context.Context, id string, base int, c Change) (Entry, error)
	// SetState moves a document to the archive, the trash, or back. That is no revision.
	SetState(ctx context.Context, id string, s State) error
	// Erase removes a document for good, with all that belongs to it. It must lie in
	// the trash.
	Erase(ctx context.Context, id string) error

	// PutFile keeps a file beside a document.
	PutFile(ctx context.Context, id string, f File) (fileID string, err error)
	// Files lists the files beside a document, the first added first.
	Files(ctx context.Context, id string) ([]FileEntry, error)
	ReadFile(ctx context.Context, id, fileID string) (File, error)
	// RenameFile calls a file otherwise. Its identity stays.
	RenameFile(ctx context.Context, id, fileID, name string) error
	RemoveFile(ctx context.Context, id, fileID string) error

	Close() error
}

// Trouble is why a store could not do what was asked, in a sentence for the person who
// asked.
type Trouble string

// The troubles of a store.
const (
	NotFound   Trouble = "this is not here, or no longer here; nothing else was changed"
	NotTrashed Trouble = "only what lies in the trash can be erased for good; nothing was erased"
	Full       Trouble = "the disk is full, so this was not saved; all that was saved before is safe: make room and save again"
	Busy       Trouble = "another program is using the file of jobs just now, so this was not saved; all that was saved before is safe: try again in a moment"
	ReadOnly   Trouble = "the file of jobs cannot be written to, so this was not saved; all that was saved before is safe: check who may write to the file and its folder"
	Newer      Trouble = "the file of jobs was written by a newer Curvewright; it was left as it is: open it with that version or a later one"
	Failed     Trouble = "the file of jobs could not be read or written just now, so this was not saved; all that was saved before is safe: check the disk and its connection"
	Damaged    Trouble = "the file of jobs is damaged or is no file of jobs; it was left as it is: choose another file, or put back a copy of this one"
)

func (t Trouble) Error() string { return string(t) }

// Conflict says that a document was changed after the revision that a change was made
// to.
type Conflict struct {
	Newest int // the revision to merge with
}

func (c *Conflict) Error() string {
	return fmt.Sprintf("someone else has saved this in the meantime, as revision %d; both versions are safe, and have to be merged", c.Newest)
}
