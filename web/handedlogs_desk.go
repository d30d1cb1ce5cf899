//go:build !js

package web

import (
	"encoding/json"
	"errors"
	"fmt"
	"strings"

	"curvewright/followup"
)

// checkLog asks whether a log from an archive can be read, and what it is called.
func checkLog(document []byte) (title string, err error) {
	var kept keptLog
	if err := json.Unmarshal(document, &kept); err != nil {
		return "", fmt.Errorf("this is no log: %w", err)
	}
	if kept.Name == "" {
		return "", errors.New("this log has no name")
	}
	if kept.Sure {
		err = kept.Mapping.Check()
	}
	return kept.Name, err
}

// checkRemark asks whether a remark from an archive can be, and what it is called.
func checkRemark(document []byte) (title, about string, err error) {
	var remark followup.Remark
	if err := json.Unmarshal(document, &remark); err != nil {
		return "", "", fmt.Errorf("this is no remark: %w", err)
	}
	return titleOf(remark), remark.Room, remark.Check()
}

func titleOf(remark followup.Remark) string {
	return strings.TrimSpace(remark.Date + " " + string(remark.Felt))
}
