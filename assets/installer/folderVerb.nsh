; A debrief is a folder: this offers "Open with Followcar" on folders, and takes the offer away again.
!macro customInstall
  WriteRegStr SHELL_CONTEXT "Software\Classes\Directory\shell\Followcar" "" "Open with Followcar"
  WriteRegStr SHELL_CONTEXT "Software\Classes\Directory\shell\Followcar" "Icon" "$appExe"
  WriteRegStr SHELL_CONTEXT "Software\Classes\Directory\shell\Followcar\command" "" '"$appExe" "%1"'
!macroend
!macro customUnInstall
  DeleteRegKey SHELL_CONTEXT "Software\Classes\Directory\shell\Followcar"
!macroend
