package store

import (
	"bytes"
	"cmp"
	"context"
	"slices"
	"strings"
	"sync"
)

// Memory is a store that lasts as long as the program: for tests, for a trial without a
// file, and as the pattern for others.
type Memory struct {
	outside Outside

	lock      sync.Mutex
	documents map[string]*kept
}

// kept is a document with all that is beside it.
type kept struct {
	entry     Entry
	searched  string
	revisions []Revision // the first first
	files     []keptFile
}

type keptFile struct {
	entry FileEntry
	data  []byte
}

// NewMemory makes an empty store.
func NewMemory(o Outside) *Memory {
	return &Memory{outside: o, documents: map[string]*kept{}}
}

var _ Store = (*Memory)(nil)

// find gives a document; the lock is held.
func (m *Memory) find(ctx context.Context, id string) (*kept, error) {
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	k, found := m.documents[id]
	if !found {
		return nil, NotFound
	}
	return k, nil
}

// List finds entries.
func (m *Memory) List(ctx context.Context, q Query) ([]Entry, int, error) {
	m.lock.Lock()
	defer m.lock.Unlock()
	if err := ctx.Err(); err != nil {
		return nil, 0, err
	}
	words := Words(q.Text)
	var found []*kept
	for _, k := range m.documents {
		if q.fits(k.entry) && containsAll(k.searched, words) {
			found = append(found, k)
		}
	}
	slices.SortFunc(found, q.compare)
	all := len(found)
	found = found[min(max(q.Offset, 0), all):]
	if q.Limit > 0 {
		found = found[:min(q.Limit, len(found))]
	}
	entries := make([]Entry, len(found))
	for i, k := range found {
		entries[i] = k.entry
	}
	return entries, all, nil
}

func (q Query) fits(e Entry) bool {
	return (q.Kind == "" || q.Kind == e.Kind) &&
		(q.Parent == "" || q.Parent == e.Parent) &&
		(q.State == Any || cmp.Or(q.State, Active) == e.State)
}

func (q Query) compare(a, b *kept) int {
	first := 0
	switch q.Sort {
	case ByTitle:
		first = cmp.Compare(a.searched, b.searched)
	case ByCreated:
		first = b.entry.Created.Compare(a.entry.Created)
	default:
		first = b.entry.Changed.Compare(a.entry.Changed)
	}
	return cmp.Or(first, cmp.Compare(a.entry.ID, b.entry.ID))
}

func containsAll(text string, words []string) bool {
	for _, word := range words {
		if !strings.Contains(text, word) {
			return false
		}
	}
	return true
}

// Read gives a document with its newest revision.
func (m *Memory) Read(ctx context.Context, id string) (Entry, Revision, error) {
	m.lock.Lock()
	defer m.lock.Unlock()
	k, err := m.find(ctx, id)
	if err != nil {
		return Entry{}, Revision{}, err
	}
	return k.entry, k.revisions[len(k.revisions)-1].copied(), nil
}

// ReadRevision gives one revision of a document.
func (m *Memory) ReadRevision(ctx context.Context, id string, number int) (Revision, error) {
	m.lock.Lock()
	defer m.lock.Unlock()
	k, err := m.find(ctx, id)
	if err != nil {
		return Revision{}, err
	}
	if number < 1 || number > len(k.revisions) {
		return Revision{}, NotFound
	}
	return k.revisions[number-1].copied(), nil
}

func (r Revision) copied() Revision {
	r.Document = bytes.Clone(r.Document)
	return r
}

// History lists the revisions of a document below a number, the newest first.
func (m *Memory) History(ctx context.Context, id string, below, most int) ([]Revision, error) {
	m.lock.Lock()
	defer m.lock.Unlock()
	k, err := m.find(ctx, id)
	if err != nil {
		return nil, err
	}
	end := len(k.revisions)
	if below > 0 {
		end = min(end, below-1)
	}
	start := 0
	if most > 0 {
		start = max(0, end-most)
	}
	history := slices.Clone(k.revisions[start:end])
	slices.Reverse(history)
	for i := range history {
		history[i].Document = nil
	}
	return history, nil
}

// Create keeps a new document.
func (m *Memory) Create(ctx context.Context, e Entry, document []byte, by, what string) (Entry, error) {
	m.lock.Lock()
	defer m.lock.Unlock()
	if err := cmp.Or(ctx.Err(), CheckEntry(e)); err != nil {
		return Entry{}, err
	}
	if e.Parent != "" && m.documents[e.Parent] == nil {
		return Entry{}, NotFound
	}
	id, err := m.newID(func(id string) bool { return m.documents[id] != nil })
	if err != nil {
		return Entry{}, err
	}
	now := m.outside.Moment()
	k := &kept{
		entry: Entry{
			ID: id, Kind: e.Kind, Parent: e.Parent, Title: e.Title, About: e.About, State: Active,
			Revision: 1, Created: now, Changed: now, ChangedBy: by,
		},
		searched:  Searched(e.Title, e.About),
		revisions: []Revision{{Number: 1, When: now, By: by, What: what, Document: copied(document)}},
	}
	m.documents[id] = k
	return k.entry, nil
}

// newID draws until an identity is new.
func (m *Memory) newID(taken func(id string) bool) (string, error) {
	for {
		id, err := m.outside.NewID()
		if err != nil || !taken(id) {
			return id, err
		}
	}
}

// copied gives bytes of one's own, not nil even if there are none.
func copied(data []byte) []byte { return append([]byte{}, data...) }

// Save keeps a new revision.
func (m *Memory) Save(ctx context.Context, id string, base int, c Change) (Entry, error) {
	m.lock.Lock()
	defer m.lock.Unlock()
	k, err := m.find(ctx, id)
	if err != nil {
		return Entry{}, err
	}
	if base != k.entry.Revision {
		return Entry{}, &Conflict{Newest: k.entry.Revision}
	}
	if err := CheckChange(c, base); err != nil {
		return Entry{}, err
	}
	e := &k.entry
	e.Title, e.About, e.Revision, e.Changed, e.ChangedBy = c.Title, c.About, base+1, m.outside.Moment(), c.By
	k.searched = Searched(c.Title, c.About)
	k.revisions = append(k.revisions, Revision{
		Number: e.Revision, When: e.Changed, By: c.By, What: c.What, Undoes: c.Undoes, Typed: c.Typed, Document: copied(c.Document),
	})
	return *e, nil
}

// SetState moves a document to the archive, the trash, or back.
func (m *Memory) SetState(ctx context.Context, id string, s State) error {
	m.lock.Lock()
	defer m.lock.Unlock()
	k, err := m.find(ctx, id)
	if err != nil {
		return err
	}
	if err := CheckState(s); err != nil {
		return err
	}
	k.entry.State = s
	return nil
}

// Erase removes a document from the trash, with all that belongs to it.
func (m *Memory) Erase(ctx context.Context, id string) error {
	m.lock.Lock()
	defer m.lock.Unlock()
	k, err := m.find(ctx, id)
	if err != nil {
		return err
	}
	if k.entry.State != Trashed {
		return NotTrashed
	}
	m.erase(id)
	return nil
}

func (m *Memory) erase(id string) {
	delete(m.documents, id)
	for child, k := range m.documents {
		if k.entry.Parent == id {
			m.erase(child)
		}
	}
}

// PutFile keeps a file beside a document.
func (m *Memory) PutFile(ctx context.Context, id string, f File) (string, error) {
	m.lock.Lock()
	defer m.lock.Unlock()
	k, err := m.find(ctx, id)
	if err != nil {
		return "", err
	}
	if err := CheckFile(f); err != nil {
		return "", err
	}
	fileID, err := m.newID(func(id string) bool { return k.file(id) >= 0 })
	if err != nil {
		return "", err
	}
	k.files = append(k.files, keptFile{
		entry: FileEntry{ID: fileID, Name: f.Name, Type: f.Type, Size: len(f.Data), Added: m.outside.Moment()},
		data:  copied(f.Data),
	})
	return fileID, nil
}

// file gives the place of a file, or -1.
func (k *kept) file(fileID string) int {
	return slices.IndexFunc(k.files, func(f keptFile) bool { return f.entry.ID == fileID })
}

// Files lists the files beside a document.
func (m *Memory) Files(ctx context.Context, id string) ([]FileEntry, error) {
	m.lock.Lock()
	defer m.lock.Unlock()
	k, err := m.find(ctx, id)
	if err != nil {
		return nil, err
	}
	entries := make([]FileEntry, len(k.files))
	for i, f := range k.files {
		entries[i] = f.entry
	}
	return entries, nil
}

// findFile gives a document and the place of one of its files.
func (m *Memory) findFile(ctx context.Context, id, fileID string) (*kept, int, error) {
	k, err := m.find(ctx, id)
	if err != nil {
		return nil, 0, err
	}
	i := k.file(fileID)
	if i < 0 {
		return nil, 0, NotFound
	}
	return k, i, nil
}

// ReadFile gives a file.
func (m *Memory) ReadFile(ctx context.Context, id, fileID string) (File, error) {
	m.lock.Lock()
	defer m.lock.Unlock()
	k, i, err := m.findFile(ctx, id, fileID)
	if err != nil {
		return File{}, err
	}
	f := k.files[i]
	return File{Name: f.entry.Name, Type: f.entry.Type, Data: copied(f.data)}, nil
}

// RenameFile calls a file otherwise.
func (m *Memory) RenameFile(ctx context.Context, id, fileID, name string) error {
	m.lock.Lock()
	defer m.lock.Unlock()
	k, i, err := m.findFile(ctx, id, fileID)
	if err != nil {
		return err
	}
	f := &k.files[i]
	if err := CheckFile(File{Name: name, Type: f.entry.Type, Data: f.data}); err != nil {
		return err
	}
	f.entry.Name = name
	return nil
}

// RemoveFile removes a file for good.
func (m *Memory) RemoveFile(ctx context.Context, id, fileID string) error {
	m.lock.Lock()
	defer m.lock.Unlock()
	k, i, err := m.findFile(ctx, id, fileID)
	if err != nil {
		return err
	}
	k.files = slices.Delete(k.files, i, i+1)
	return nil
}

// Close lets everything go.
func (m *Memory) Close() error {
	m.lock.Lock()
	defer m.lock.Unlock()
	clear(m.documents)
	return nil
}
