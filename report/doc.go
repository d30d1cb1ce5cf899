// Package report turns a settings sheet into something that a person can hold or
// read: charts as SVG for a page, the sheet as a PDF for the boiler room wall, as
// text for a terminal and as JSON for another program.
//
// Most callers want [CurveSVG] and [RoomsSVG]; the command line wants
// [SheetText], [WhyText] and [SheetJSON]. The charts of the PDF and of the page come
// from the same drawing code, so that both show the same thing.
//
// The same sheet gives the same bytes: nothing here reads a clock or a file. Nothing
// is calculated here either, except where a label goes.
package report
