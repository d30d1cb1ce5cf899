//go:build js

package web

import "encoding/json"

// Where the browser itself is the server, logs and remarks are kept to be handed on; what
// they say is read at a desk.

func checkLog(document []byte) (title string, err error) {
	var kept struct{ Name string }
	err = json.Unmarshal(document, &kept)
	return kept.Name, err
}

func checkRemark(document []byte) (title, about string, err error) {
	var remark struct{ Date, Felt, Room string }
	err = json.Unmarshal(document, &remark)
	return remark.Date + " " + remark.Felt, remark.Room, err
}
