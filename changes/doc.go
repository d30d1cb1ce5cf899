// Package changes is about two versions of one job: what differs between them, told in
// words; how the work of two people on it is brought together, and how a change is taken
// back later; and how single fields and entries are changed by their path, as a form
// does it.
//
// A path is that of the document: rooms[2].emitters[0].fin_tube.length. Entries of lists
// are matched by their names where they have one, by what is in them otherwise, so that
// a room that was moved or renamed is still the same room.
package changes
