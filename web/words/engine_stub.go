package words

var engineSteps = map[string]wording{}
var engineRanges = map[string]wording{}
var engineNotes = map[string]wording{}
var engineMeanings = map[string]wording{}
var engineSurveyFaults = map[string]wording{}
