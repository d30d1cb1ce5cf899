// Package followup learns from a house that runs: it takes the readings of a logger or
// the remarks of the household and says what the house is really like, what the control
// really does, what is wrong first, and how the curve should be corrected.
//
// [Analyse] holds a log against a job. What can be estimated from its columns is
// estimated, each figure with an interval that holds the truth in nine cases of ten;
// what these data cannot tell is said to be so. Findings come in the order of repair:
// flow and air, hydraulics, sensors, the curve, programs, hot water. [Weigh] does the
// same for remarks.
//
// Readings follow each other closely, so that a thousand of them know less than a
// thousand. Every interval accounts for it.
package followup
