// Package logs reads what a data logger, a heat meter or a control has written down:
// a table of thermometers, meters and contacts over time, in whatever layout the maker
// chose.
//
// [Recognise] looks at the beginning of a file and proposes a [Mapping]: delimiter,
// decimal sign, form of the times, and for every column its meaning, its unit, how sure
// that is and why. A person confirms or corrects it; [Mapping.Write] and [ReadMapping]
// keep it for the next file. [Read] then reads the whole file row by row into columns in
// SI units, and names what is wrong with it: gaps, times twice, sensors that stand
// still, values that no thermometer has, columns that seem exchanged.
//
// A spreadsheet in the open XML form is turned into the same rows by [Sheet]. Its
// formulas are not worked out; the values that they had are taken.
package logs
