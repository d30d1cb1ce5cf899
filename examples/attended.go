//go:build !js

package examples

import _ "embed"

// What became of the ridge house after its survey. A page in a browser without a server
// has no follow-up, and is spared the log.

// RidgeHouseVisit is the first visit to the ridge house, signed.
//
//go:embed ridge-house-visit.yaml
var RidgeHouseVisit []byte

// RidgeHouseWinter is what its logger kept after that; the recipe is in winter_test.go.
//
//go:embed ridge-house-winter.csv
var RidgeHouseWinter []byte
