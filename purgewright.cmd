@echo off
rem Purgewright's launcher for Windows: builds on first use or when sources changed, then starts the program.
rem   purgewright.cmd                the window
rem   purgewright.cmd check CASE     the command line
rem What runs are jars in the git-ignored folder .dist. Exit codes of the launcher itself: 2 (no JDK, no Maven, read-only),
rem 70 (the build failed).
setlocal EnableExtensions DisableDelayedExpansion
set "root=%~dp0"
set "root=%root:~0,-1%"
set "dist=%root%\.dist"

if defined JAVA_HOME if exist "%JAVA_HOME%\bin\java.exe" (
    set "java=%JAVA_HOME%\bin\java.exe"
    goto :haveJava
)
for %%J in (java.exe) do set "java=%%~$PATH:J"
if not defined java (
    >&2 echo purgewright: no Java found: install a JDK 17 or newer or set JAVA_HOME
    exit /b 2
)
:haveJava
for %%J in ("%java%") do set "jdk=%%~dpJ.."
for %%J in ("%jdk%") do set "jdk=%%~fJ"
set "version="
if exist "%jdk%\release" for /f "usebackq tokens=2 delims==" %%V in (`findstr /b "JAVA_VERSION=" "%jdk%\release"`) do set "version=%%~V"
if not defined version for /f "tokens=3" %%V in ('""%java%" -version 2^>^&1"') do if not defined version set "version=%%~V"
for /f "tokens=1 delims=.+-" %%M in ("%version%") do set "major=%%M"
if not defined major set "major=0"
if %major% LSS 17 (
    >&2 echo purgewright: Java %version% is too old: install a JDK 17 or newer or set JAVA_HOME
    exit /b 2
)

rem One PowerShell call tells whether the build is up to date: it compares the newest time among poms and sources, and the number of
rem files, with the stamp. Batch alone cannot.
set "PW_ROOT=%root%"
set "PW_JDK=%jdk% %version%"
set "now="
for /f "usebackq delims=" %%S in (`powershell -NoProfile -ExecutionPolicy Bypass -Command "$f = @(Get-ChildItem -LiteralPath $env:PW_ROOT -Filter pom.xml -File) + @(Get-ChildItem -Path (Join-Path $env:PW_ROOT '*\pom.xml') -File) + @(Get-ChildItem -Path (Join-Path $env:PW_ROOT '*\src\main') -Recurse -File) + @(Get-ChildItem -Path (Join-Path $env:PW_ROOT 'samples\cases') -Recurse -File); '{0} {1} {2} {3}' -f ($f | Measure-Object -Maximum { $_.LastWriteTimeUtc.Ticks }).Maximum, $f.Count, $env:PW_JDK, $env:PW_ROOT"`) do set "now=%%S"
set "built="
set "lib="
if exist "%dist%\stamp.txt" (
    < "%dist%\stamp.txt" (
        set /p built=
        set /p lib=
    )
)
if defined lib if exist "%dist%\%lib%\java.args" if "%built%"=="%now%" goto :start

mkdir "%dist%" 2>nul
>"%dist%\probe.txt" echo probe 2>nul
if not exist "%dist%\probe.txt" (
    if defined lib if exist "%dist%\%lib%\java.args" (
        >&2 echo purgewright: this clone is read-only: running what was built before, which may be older than the sources
        goto :start
    )
    >&2 echo purgewright: this clone is read-only and was never built: copy it to a folder you may write
    exit /b 2
)
del "%dist%\probe.txt"
where mvn >nul 2>nul
if errorlevel 1 (
    >&2 echo purgewright: no Maven found: it is needed to build Purgewright once
    exit /b 2
)
if not exist "%jdk%\bin\javac.exe" (
    >&2 echo purgewright: %jdk% is a Java runtime without a compiler: install a JDK 17 or newer
    exit /b 2
)
rem A folder is the lock. One that is left by a process that was killed must be removed by hand, and the message says so.
:lock
mkdir "%dist%\lock" 2>nul
if errorlevel 1 (
    >&2 echo purgewright: another start is building; waiting ^(remove %dist%\lock if none is^)
    timeout /t 2 /nobreak >nul
    goto :lock
)
>&2 echo purgewright: building; the first time this takes a few minutes
set "lib=lib.%RANDOM%%RANDOM%"
set "JAVA_HOME=%jdk%"
call mvn -B -ntp -q -Dstyle.color=never %PURGEWRIGHT_MAVEN_OPTIONS% -f "%root%\pom.xml" -pl gui -am -Dmaven.test.skip=true -Dspotless.check.skip=true "-Dpurgewright.dist=%dist%\new" package 1>&2
if errorlevel 1 (
    rmdir /s /q "%dist%\new" 2>nul
    rmdir "%dist%\lock"
    >&2 echo purgewright: the build failed: see the lines above
    exit /b 70
)
copy /y "%root%\gui\target\gui-*.jar" "%dist%\new" >nul
move "%dist%\new" "%dist%\%lib%" >nul
set "args=%dist%\%lib%"
set "args=%args:\=\\%"
>"%dist%\%lib%\java.args" echo -cp "%args%\\*"
rem The window's toolkit stands on the module path: from the class path it works, but warns at every start.
set "modules="
for %%F in ("%dist%\%lib%\javafx-*-win*.jar") do call :module "%%~nxF"
if defined modules (
    >"%dist%\%lib%\window.args" echo --module-path "%modules%"
    >>"%dist%\%lib%\window.args" echo --add-modules javafx.controls
)
"%java%" -Xshare:off "-XX:DumpLoadedClassList=%dist%\%lib%\classes.list" "@%dist%\%lib%\java.args" purgewright.command.ArchiveTraining "%root%\samples\cases" >nul 2>nul
"%java%" -Xshare:dump "-XX:SharedClassListFile=%dist%\%lib%\classes.list" "-XX:SharedArchiveFile=%dist%\%lib%\classes.jsa" "@%dist%\%lib%\java.args" >nul 2>nul
>"%dist%\stamp.new" echo %now%
>>"%dist%\stamp.new" echo %lib%
move /y "%dist%\stamp.new" "%dist%\stamp.txt" >nul
rmdir "%dist%\lock"

:start
set "window="
if "%~1"=="" if exist "%dist%\%lib%\window.args" set "window="@%dist%\%lib%\window.args""
if /i "%~1"=="window" if exist "%dist%\%lib%\window.args" set "window="@%dist%\%lib%\window.args""
"%java%" "-XX:SharedArchiveFile=%dist%\%lib%\classes.jsa" -Xshare:auto -Xlog:disable -Xlog:all=error:stderr -XX:+UseSerialGC -XX:TieredStopAtLevel=1 %PURGEWRIGHT_JAVA_OPTIONS% %window% "@%dist%\%lib%\java.args" purgewright.Main %*
exit /b %ERRORLEVEL%

:module
if defined modules (set "modules=%modules%;%args%\\%~1") else (set "modules=%args%\\%~1")
exit /b 0
